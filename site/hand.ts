// Handing on what is on the screen: by a code for another phone's camera, by its address, or by what the phone has to share
// it; on paper by the code as well. A key says which address, if that is not the page's own; an empty one is too long.
import look from "./hand.css";
import { ask, askNow, prepare, sentence, whenIdle, type Request } from "./host";
import { packed, packing } from "./jobhand";
import { button, copyOf } from "./key";
import { make } from "./make";
import { on } from "./on";
import { openSheet } from "./sheet";
import { wear } from "./wear";

const KEYS = "button.hand";
/** A module of a code is at least so wide, in px: 0.4 mm on a phone's screen. Another phone's camera finds smaller ones hard to read. */
const MODULE = 2.6;

export function startHanding(): void {
  const keys = document.querySelectorAll<HTMLButtonElement>(KEYS);
  for (const key of keys) key.disabled = false;
  on(document, "click", KEYS, open);
  // Paper cannot wait for the calculators. On a wide screen, where people print, they run ahead; on a phone, where the page needs them anyway.
  if (document.querySelector(".jobs") || (keys.length && matchMedia("(min-width: 62.5em)").matches)) whenIdle(prepare);
  addEventListener("beforeprint", () => {
    const job = packing();
    const code = askNow(request(job ? packed(askNow(job)) : location.href))?.out?.code;
    if (code) document.querySelector("main")!.prepend(picture(code.text));
  });
  addEventListener("afterprint", () => document.querySelector("main > .paper")?.remove());
}

async function open({ dataset }: HTMLElement): Promise<void> {
  await wear(look);
  const sheet = openSheet("hand-on", "Hand on", "<h2>Hand on</h2><div class=drawing role=status></div><textarea readonly aria-label=Address></textarea><div class=keys></div>");
  const [place, keys] = sheet.querySelectorAll("div");
  const text = sheet.querySelector("textarea")!;
  const say = (...said: (Node | string)[]) => place!.append(...said);
  keys!.append(button("Done", () => sheet.close()));
  try {
    const job = packing();
    text.value = job ? packed(await ask(job)) : (dataset.address ?? location.href);
    const copy = copyOf(text);
    keys!.prepend(copy);
    if ("share" in navigator) copy.after(button("Share", () => navigator.share({ url: text.value }).catch(() => {}))); // closing its dialog is no fault
    copy.focus();
    if (!text.value) return say("This is too long for an address. Save it as a file, or keep it with a job.");
    const { out } = await ask(request(text.value));
    if (out && +out.side!.text <= place!.clientWidth / MODULE) say(picture(out.code!.text), "Point the camera of the other phone at it.");
    else say("Too long for a code that a phone reads well: copy it, share it, or save a file.");
  } catch (cause) {
    say(sentence(cause));
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
