// Handing on what is on the screen: by a code for another phone's camera, by its address, or by what the phone has to share
// it; on paper by the code as well. A key says which address, if that is not the page's own; an empty one is too long.
import { make } from "./answer";
import look from "./hand.css";
import { ask, askNow, prepare, sentence, whenIdle, type Request } from "./host";
import { button, copyOf } from "./key";
import { wear } from "./wear";

const KEYS = "button.hand";
/** Larger codes have modules under 0.4 mm on a phone's screen, 52 mm wide: another phone's camera finds them hard to read. */
const LARGEST = 25;

export function startHanding(): void {
  const keys = document.querySelectorAll<HTMLButtonElement>(KEYS);
  for (const key of keys) key.disabled = !!key.closest(".jobs") && !key.dataset.address; // a job is packed first
  document.addEventListener("click", ({ target }) => {
    const key = (target as Element).closest<HTMLElement>(KEYS);
    if (key) void openSheet(addressOf(key));
  });
  // Paper cannot wait for the calculators. Where people print they run ahead; on a phone, where the page needs them anyway.
  if (document.querySelector(".jobs") || (keys.length && matchMedia("(hover: hover)").matches)) whenIdle(prepare);
  addEventListener("beforeprint", () => {
    const code = askNow(request(addressOf(document.querySelector(".jobs " + KEYS))))?.out?.code;
    if (code) document.querySelector("main")!.prepend(picture(code.text));
  });
  addEventListener("afterprint", () => document.querySelector("main > .paper")?.remove());
}

function addressOf(key: HTMLElement | null): string {
  return key?.dataset.address ?? location.href;
}

async function openSheet(address: string): Promise<void> {
  await wear(look);
  const text = make("textarea", "", address) as HTMLTextAreaElement;
  text.readOnly = true;
  text.ariaLabel = "Address";
  const copy = copyOf(text);
  copy.autofocus = true;
  const share = "share" in navigator ? [button("Share", () => navigator.share({ url: address }).catch(() => {}))] : []; // closing its dialog is no fault
  const place = make("div", "drawing");
  place.role = "status";
  const sheet = make("dialog", "hand-on", make("h2", "", "Hand on"), place, text, make("div", "keys", copy, ...share, button("Done", () => sheet.close()))) as HTMLDialogElement;
  sheet.ariaLabel = "Hand on";
  sheet.addEventListener("close", () => sheet.remove());
  document.body.append(sheet);
  sheet.showModal();
  place.append(...(await drawn(address)));
}

async function drawn(address: string): Promise<(Node | string)[]> {
  if (!address) return ["This is too long for an address. Save it as a file, or keep it with a job."];
  try {
    const { out } = await ask(request(address));
    if (out && Number(out.version!.text) <= LARGEST) return [picture(out.code!.text), "Point the camera of the other phone at it."];
    return ["The address is too long for a code that a phone reads well: copy it, share it, or save a file."];
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
