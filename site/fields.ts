// Puts the entries of calculators into the units of choice, as long as they hold what the page was published with.
import { entryOf, fieldsIn, unitOf } from "./entry";
import { plain, rewriteAll, unitsFor, kindOf, type Choice } from "./rewrite";

/** What an entry held before, and what was put there: a number and a unit each. */
const changed = new WeakMap<HTMLElement, [before: string[], put: string[]]>();

/** What a reader typed, or a unit that a reader chose, stays: it is what the meter showed. */
export function fieldsTo(choice: Choice): void {
  for (const help of document.querySelectorAll<HTMLElement>(".calculator .help:not(.cards), .calculator .cards b")) {
    help.textContent = rewriteAll((help.dataset.own ??= help.textContent!), choice);
  }
  for (const field of fieldsIn(document)) {
    const entry = entryOf(field) as HTMLInputElement;
    const list = unitOf(field);
    if (!list) continue;
    const now = [entry.value, list.value];
    const [last, put] = changed.get(field) ?? [];
    // The page's own entry, or that of a machine's card.
    const isPublished = () =>
      (entry.value === entry.defaultValue && list.selectedOptions[0]!.defaultSelected) ||
      [...field.querySelectorAll<HTMLElement>(".cards b")].some((card) => plain(card.dataset.own!) === now.join(" "));
    const isPut = put?.join() === now.join();
    if (!isPut && !isPublished()) continue;
    const before = isPut ? last! : now;
    const offered = [...list.options].map(({ value }) => value);
    const next = inChoice(before, offered, choice);
    if (!offered.includes(next[1]!)) list.append(new Option(next[1]));
    [entry.value, list.value] = next as [string, string];
    changed.set(field, [before, next]);
  }
}

/** A blank entry offers the unit, an entry is written in it. Fields of differences begin with the kelvin and stay. */
function inChoice([text, unit]: string[], offered: string[], choice: Choice): string[] {
  if (offered[0] === "K") return [text!, unit!];
  if (!text) {
    const wanted = unitsFor(kindOf(unit!), choice).map(([symbol]) => symbol);
    return [text!, wanted.find((symbol) => offered.includes(symbol)) ?? wanted.at(-1) ?? unit!];
  }
  const [number, share] = text.split(/(?= ± [\d.]+ %$)/);
  const anew = plain(rewriteAll(`${number} ${unit}`, choice, true));
  const at = anew.lastIndexOf(" ");
  return [anew.slice(0, at) + (share ?? ""), anew.slice(at + 1)];
}
