// Makes a calculator whole. The page holds what is read without scripts; what only a form that runs needs comes here: the place of
// a fault beside each entry, and the entries that may stay blank, from a file that all guides share.
import { make, waiting } from "./make";
import { entryOf, fieldsIn } from "./entry";
import { fetchPage } from "./fetched";

/** Joins entries with the words and sentences about them. */
export function dress(part: HTMLElement): void {
  for (const field of fieldsIn(part)) {
    const entry = entryOf(field)!;
    const fault = make("p", "fault");
    fault.hidden = true;
    field.append(fault);
    const label = field.querySelector("label")?.firstChild?.textContent?.trim() ?? "";
    for (const [css, what] of [[".unit", "unit of "], [".over", "OL, over-range: "]]) field.querySelector(css!)?.setAttribute("aria-label", what + label);
    const told = field.querySelectorAll(".help:not(.cards), .fault");
    told.forEach((line, i) => (line.id = `${entry.id}-${i}`));
    entry.setAttribute("aria-describedby", [...told].map(({ id }) => id).join(" "));
  }
}

const ways = new WeakMap<HTMLElement, Promise<void>>();

/** Brings the entries that a calculator has folded away, once; a try that fails is followed by another. */
export function whole(block: HTMLElement): Promise<void> {
  const more = block.querySelector<HTMLElement>("[data-from]");
  if (!more) return Promise.resolve();
  const way = ways.get(block) ?? bring(block, more).catch(() => {
    ways.delete(block);
    more.append(waiting("These entries did not load. Open them once more, with a network."));
  });
  ways.set(block, way);
  return way;
}

/** Brings them where one of the names given is not in the page. */
export async function bringFor(block: HTMLElement, given: Record<string, string>): Promise<void> {
  if (Object.keys(given).some((name) => !block.querySelector(`[data-input="${CSS.escape(name)}"]`))) await whole(block);
}

async function bring(block: HTMLElement, more: HTMLElement): Promise<void> {
  const all = await fetchPage(more.dataset.from!);
  more.querySelector(".waiting")?.remove();
  const fields = all.querySelectorAll<HTMLElement>(`[data-calculator=${block.dataset.calculator}] > [data-input]`);
  for (const field of fields) {
    if (block.querySelector(`[data-input=${field.dataset.input}]`)) continue;
    for (const name of ["id", "for"]) field.querySelector(`[${name}]`)!.setAttribute(name, `${block.id}-${field.dataset.input}`);
    dress(more.appendChild(make("div", "", field)));
  }
}
