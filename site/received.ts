// Fills in what stands in the address, which came from anywhere: all of it or nothing, and nothing of it runs.
import { read, STRANGE } from "./address";
import { make } from "./make";
import { ask, sentence } from "./host";
import { must } from "./must";
import { refill } from "./refill";
import { bringFor } from "./whole";

/** Whether the entries are any, the calculator says. What is wrong is said in a sentence. */
export async function receive(): Promise<void> {
  let block = document.querySelector<HTMLElement>("section.calculator");
  if (!block) return;
  try {
    const sent = read(location.hash);
    if (!sent) return;
    const { place, id, given } = sent;
    const named = document.getElementById(place);
    if (named) await bringFor(named, given);
    must(named?.dataset.calculator === id && Object.keys(given).every((name) => named.querySelector(`[data-input="${name}"]`)), STRANGE);
    block = named;
    const { error } = await ask({ id, in: given });
    if (error) throw new Error(`None of the entries in the address was used: ${error.text}`);
    block.dataset.sent = ""; // not the reader's own, nor the reader's machine's
    await refill(block, given);
    say(block, "Filled in from the address.");
  } catch (cause) {
    say(block, sentence(cause));
  }
  block.scrollIntoView();
}

function say(block: HTMLElement, text: string): void {
  const line = block.querySelector(".sent") ?? make("p", "sent");
  line.role = "status";
  block.querySelector("form")!.before(line);
  line.textContent = text;
}
