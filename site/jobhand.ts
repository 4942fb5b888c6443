// Handing on a job: all of it packed into the address of its page.
import { pack } from "./exchange";
import { LONGEST } from "./key";

/** How the fragment of such an address begins. */
export const SENT = "#job=";

let asked = 0;

/** Gives the key, which hand.ts serves, the address that holds a parcel; the last one asked for counts. */
export function handOn(key: HTMLButtonElement, text: Promise<string>): void {
  const turn = ++asked;
  void text.then(pack).then((packed) => {
    if (turn !== asked) return;
    const { href } = new URL(SENT + packed, location.href);
    key.dataset.address = href.length > LONGEST ? "" : href;
    key.disabled = false;
  });
}
