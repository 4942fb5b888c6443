// Handing on a job: all of it packed into the address of its page.
import { pack } from "./exchange";
import { LONGEST } from "./key";

/** How the fragment of such an address begins. */
export const SENT = "#job=";

/** Gives the key, which hand.ts serves, the address that holds the parcel. */
export function handOn(key: HTMLButtonElement, text: string): void {
  key.disabled = true;
  void pack(text).then((packed) => {
    const { href } = new URL(SENT + packed, location.href);
    key.dataset.address = href.length > LONGEST ? "" : href;
    key.disabled = false;
  });
}
