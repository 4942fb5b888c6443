// Handing on a job: all of it packed into the address of its page.
import { pack } from "./exchange";
import { button, LONGEST } from "./key";

/** How the fragment of such an address begins. */
export const SENT = "#job=";

/** The key for it, which hand.ts serves; text: the parcel. */
export function handKey(text: string): HTMLButtonElement {
  const key = button("Hand on", () => {}, "hand");
  key.disabled = true;
  void pack(text).then((packed) => {
    const { href } = new URL(SENT + packed, location.href);
    key.dataset.address = href.length > LONGEST ? "" : href;
    key.disabled = false;
  });
  return key;
}
