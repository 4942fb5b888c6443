// Lets the mark on the pressure ladder follow what is being typed into a calculator.
import { textOf } from "./entry";
import { ask } from "./host";
import { on } from "./on";
import type { Show } from "./ladder";

/** An entry in hand that is a pressure counts as text being read. Which one is, and how much, the calculators know. */
export function followEntries(show: Show): void {
  const follow = async (field: HTMLElement) => {
    if (field.querySelector("textarea")) return;
    const given = await ask({ id: "pressure", in: { value: textOf(field) }, out: { absolute: "Pa" } }).catch(() => undefined);
    show(given?.out?.absolute?.value ?? 0);
  };
  for (const kind of ["focusin", "input"]) on(document, kind, ".calculator [data-input]", follow);
}
