// Puts the entries of calculators into the units of choice, as long as they hold what the page was published with.
import { entryOf } from "./entry";
import { plain, rewriteAll, unitsFor, kindOf, type Choice } from "./rewrite";

/** What an entry held before, and what was put there: a number and a unit each. */
const changed = new WeakMap<HTMLElement, [before: string[], put: string[]]>();

/** What a reader typed, or a unit that a reader chose, stays: it is what the meter showed. */
export function fieldsIn(choice: Choice): void {
  for (const help of document.querySelectorAll<HTMLElement>(".calculator .help:not(.cards), .calculator .cards b")) {
    help.textContent = rewriteAll((help.dataset.own ??= help.textContent!), choice);
  }
  for (const field of document.querySelectorAll<HTMLElement>(".calculator [data-input]")) {
    const entry = entryOf(field);
    const list = field.querySelector<HTMLSelectElement>("select.unit");
    if (!list || !entry) continue;
    const now = [entry.value, list.value];
    const [last, put] = changed.get(field) ?? [];
    const before = put?.join() === now.join() ? last! : now;
    if (before === now && !isPublished(field, entry as HTMLInputElement, list)) continue;
    const next = inChoice(before, list, choice);
    if (![...list.options].some(({ value }) => value === next[1])) list.append(new Option(next[1]));
    [entry.value, list.value] = next as [string, string];
    changed.set(field, [before, next]);
  }
}

/** The page's own entry, or that of a machine's card. */
function isPublished(field: HTMLElement, entry: HTMLInputElement, list: HTMLSelectElement): boolean {
  if (entry.value === entry.defaultValue && list.selectedOptions[0]!.defaultSelected) return true;
  return [...field.querySelectorAll<HTMLElement>(".cards b")].some((card) => plain(card.dataset.own!) === `${entry.value} ${list.value}`);
}

/** A blank entry offers the unit, an entry is written in it. Fields of differences begin with the kelvin and stay. */
function inChoice([text, unit]: string[], list: HTMLSelectElement, choice: Choice): string[] {
  const has = (symbol: string) => [...list.options].some(({ value }) => value === symbol);
  if (list.options[0]!.value === "K") return [text!, unit!];
  if (!text) {
    const wanted = unitsFor(kindOf(unit!), choice).map(([symbol]) => symbol);
    return [text!, wanted.find(has) ?? wanted.at(-1) ?? unit!];
  }
  const [number, share] = text.split(/(?= ± [\d.]+ %$)/);
  const anew = plain(rewriteAll(`${number} ${unit}`, choice, true));
  const at = anew.lastIndexOf(" ");
  return [anew.slice(0, at) + (share ?? ""), anew.slice(at + 1)];
}
