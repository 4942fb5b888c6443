// Handing on what is on the screen: by a code for another phone's camera, by its address, or by what the phone has to share
// it; on paper by the code as well. A key says which address, if that is not the page's own; an empty one is too long.
import { make } from "./make";
import look from "./hand.css";
import { ask, askNow, prepare, sentence, whenIdle, type Request } from "./host";
import { button, copyOf } from "./key";
import { on } from "./on";
import { openSheet } from "./sheet";
import { wear } from "./wear";

const KEYS = "button.hand";
/** A module of a code is at least so wide, in px: 0.4 mm on a phone's screen. Another phone's camera finds smaller ones hard to read. */
const MODULE = 2.6;

export function startHanding(): void {
  const keys = document.querySelectorAll<HTMLButtonElement>(KEYS);
  for (const key of keys) key.disabled = !!key.closest(".jobs") && !key.dataset.address; // a job is packed first
  on(document, "click", KEYS, (key) => open(addressOf(key)));
  // Paper cannot wait for the calculators. On a wide screen, where people print, they run ahead; on a phone, where the page needs them anyway.
  if (document.querySelector(".jobs") || (keys.length && matchMedia("(min-width: 62.5em)").matches)) whenIdle(prepare);
  addEventListener("beforeprint", () => {
    const code = askNow(request(addressOf(document.querySelector(".jobs " + KEYS))))?.out?.code;
    if (code) document.querySelector("main")!.prepend(picture(code.text));
  });
  addEventListener("afterprint", () => document.querySelector("main > .paper")?.remove());
}

function addressOf(key: HTMLElement | null): string {
  return key?.dataset.address ?? location.href;
}

async function open(address: string): Promise<void> {
  await wear(look);
  const sheet = openSheet("hand-on", "Hand on", "<h2>Hand on</h2><div class=drawing role=status></div><textarea readonly aria-label=Address></textarea><div class=keys></div>");
  const [place, keys] = sheet.querySelectorAll("div");
  const text = sheet.querySelector("textarea")!;
  text.value = address;
  const copy = copyOf(text);
  keys!.append(copy, button("Done", () => sheet.close()));
  if ("share" in navigator) copy.after(button("Share", () => navigator.share({ url: address }).catch(() => {}))); // closing its dialog is no fault
  copy.focus();
  place!.append(...(await drawn(address, place!.clientWidth / MODULE)));
}

/** most: modules that find room, with the margin of the code. */
async function drawn(address: string, most: number): Promise<(Node | string)[]> {
  if (!address) return ["This is too long for an address. Save it as a file, or keep it with a job."];
  try {
    const { out } = await ask(request(address));
    if (out && +out.side!.text <= most) return [picture(out.code!.text), "Point the camera of the other phone at it."];
    return ["Too long for a code that a phone reads well: copy it, share it, or save a file."];
  } catch (cause) {
    return [sentence(cause)];
  }
}

function request(text: string): Request {
  return { id: "qr", in: { text } };
}

/** The calculators drew it, and nothing of the address stands in it. */
function picture(svg: string): HTMLElement {
  const figure = make("figure", "paper");
  figure.innerHTML = svg;
  return figure;
}
