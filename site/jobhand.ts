// Handing on a job: all of it packed into the address of its page.
import { pack } from "./exchange";
import { whenIdle } from "./host";
import { LONGEST } from "./key";

/** How the fragment of such an address begins. */
export const SENT = "#job=";

let asked = 0;

/** Gives the key, which hand.ts serves, the address that holds a parcel, when nothing else is to be done; the last one asked for counts. */
export function handOn(key: HTMLButtonElement, text: () => Promise<string>): void {
  const turn = ++asked;
  key.disabled = true;
  key.dataset.address = "";
  whenIdle(async () => {
    const { href } = new URL(SENT + (await pack(await text())), location.href);
    if (turn !== asked) return;
    key.dataset.address = href.length > LONGEST ? "" : href;
    key.disabled = false;
  });
}
