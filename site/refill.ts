// Gives a calculator the entries that were kept, as they were typed or with the unit that was chosen.
import { entryOf, fieldsIn, join, unitOf } from "./entry";
import { bringFor } from "./whole";

/** Fills the entries by name and lets the calculator answer. A name or a choice that it does not have is left out. */
export async function refill(block: HTMLElement, given: Record<string, string>): Promise<void> {
  await bringFor(block, given);
  for (const field of fieldsIn(block)) {
    const name = field.dataset.input!;
    const text = given[name] ?? "";
    const entry = entryOf(field);
    if (entry instanceof HTMLSelectElement) {
      const choice = [...entry.options].find(({ value }) => value === text);
      if (choice) choice.selected = true;
    } else if (entry) entry.value = withoutUnit(unitOf(field), text);
  }
  block.querySelector("form")?.dispatchEvent(new Event("input"));
}

/** A unit that can be chosen beside the entry is chosen there, if both together say the same. */
export function withoutUnit(list: HTMLSelectElement | null, text: string): string {
  for (const unit of list?.options ?? []) {
    const typed = text.replace(" " + unit.value, "");
    if (join(typed, unit.value) !== text) continue;
    unit.selected = true;
    return typed;
  }
  return text;
}
