// Gives a calculator the entries that were kept, as they were typed or with the unit that was chosen.
import { entryOf } from "./entry";
import { whole } from "./whole";

/** Fills the entries by name and lets the calculator answer. A name or a choice that it does not have is left out. */
export async function refill(block: HTMLElement, given: Record<string, string>): Promise<void> {
  if (Object.keys(given).some((name) => !block.querySelector(`[data-input="${CSS.escape(name)}"]`))) await whole(block);
  for (const field of block.querySelectorAll<HTMLElement>("[data-input]")) {
    const text = Object.hasOwn(given, field.dataset.input!) ? given[field.dataset.input!]! : "";
    const entry = entryOf(field);
    if (!entry) continue;
    if (entry instanceof HTMLSelectElement) choose(entry, text);
    else entry.value = withoutUnit(field, text);
  }
  block.querySelector("form")?.dispatchEvent(new Event("input"));
}

function choose(list: HTMLSelectElement, text: string): boolean {
  const at = [...list.options].findIndex(({ value }) => value === text);
  if (at >= 0) list.selectedIndex = at;
  return at >= 0;
}

/** A unit that can be chosen beside the entry is chosen there. */
function withoutUnit(field: HTMLElement, text: string): string {
  const list = field.querySelector<HTMLSelectElement>("select.unit");
  const cut = text.indexOf(" ");
  return list && cut > 0 && choose(list, text.slice(cut + 1)) ? text.slice(0, cut) : text;
}
