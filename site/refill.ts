// Gives a calculator the entries that were kept, as they were typed or with the unit that was chosen.
import { entryOf, join } from "./entry";
import { bringFor } from "./whole";

/** Fills the entries by name and lets the calculator answer. A name or a choice that it does not have is left out. */
export async function refill(block: HTMLElement, given: Record<string, string>): Promise<void> {
  await bringFor(block, given);
  for (const field of block.querySelectorAll<HTMLElement>("[data-input]")) {
    const text = Object.hasOwn(given, field.dataset.input!) ? given[field.dataset.input!]! : "";
    const entry = entryOf(field);
    if (!entry) continue;
    if (entry instanceof HTMLSelectElement) choose(entry, text);
    else entry.value = withoutUnit(field, text);
  }
  block.querySelector("form")?.dispatchEvent(new Event("input"));
}

function choose(list: HTMLSelectElement, text: string): void {
  const at = [...list.options].findIndex(({ value }) => value === text);
  if (at >= 0) list.selectedIndex = at;
}

/** A unit that can be chosen beside the entry is chosen there, if both together say the same. */
export function withoutUnit(field: HTMLElement, text: string): string {
  const list = field.querySelector<HTMLSelectElement>("select.unit");
  for (const { value } of list?.options ?? []) {
    const typed = text.slice(0, -value.length - 1);
    if (join(typed, value) !== text) continue;
    list!.value = value;
    return typed;
  }
  return text;
}
