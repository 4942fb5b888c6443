// Fills the calculators in from the card of the reader's machine, and marks what the text says of it. Loaded by pages that
// are about several machines; they show the first one's values, and list all, without it.
import { entryOf, textOf, unitOf } from "./entry";
import { recall, remember } from "./memory";
import { on } from "./on";
import { own } from "./place";
import { withoutUnit } from "./refill";
import { wear } from "./wear";
import look from "./yours.css";

/** Where the choice is kept: the name of the machine. Another page of the site, in another tab, hears of a change. */
const KEY = "blankoff.machine";

/** The page's own text, and guides that were opened in it: each may be about other machines, or list them in another order. */
const parts: HTMLElement[] = [];

/** Lets a part of the page follow the reader's machine, now and at each choice. */
export async function startYours(part = document.querySelector("main")!): Promise<void> {
  await wear(look);
  if (!parts.length) {
    on<HTMLSelectElement>(document, "change", "select.machine", (list) => {
      followAll(list.value);
      remember(KEY, list.value);
    });
    window.addEventListener("storage", ({ key, newValue }) => {
      if (key === KEY || key === null) followAll(newValue ?? ""); // null: all that is kept was cleared
    });
  }
  parts.push(part);
  for (const list of own<HTMLSelectElement>(part, "select.machine")) list.disabled = false;
  const chosen = recall(KEY);
  if (chosen) follow(part, chosen);
}

function followAll(name: string): void {
  for (const part of parts) follow(part, name);
}

/** A machine that the part does not know is none: then the first one's values stand there, as without a choice. */
function follow(part: HTMLElement, name: string): void {
  let at = -1;
  for (const list of own<HTMLSelectElement>(part, "select.machine")) {
    const names = [...list.options].map(({ value }) => value);
    list.selectedIndex = Math.max(names.indexOf(name), 0);
    at = names.filter(Boolean).indexOf(name);
  }
  if (part.localName === "main") document.documentElement.dataset.machine = String(at);
  for (const fact of own(part, "[data-of]")) fact.toggleAttribute("data-mine", fact.dataset.of!.split(" ").includes(String(at)));
  for (const form of own(part, ".calculator:not([data-sent]) form.inputs")) {
    const changed = [...form.querySelectorAll(".cards")].filter((cards) => {
      const card = cards.querySelectorAll("b")[Math.max(at, 0)]!;
      const said = (card.dataset.own ?? card.textContent!).replace(/\s/g, " "); // its own, where it is shown in other units
      return put(cards.closest("[data-input]")!, said);
    });
    if (changed.length) form.dispatchEvent(new Event("input", { bubbles: true }));
  }
}

/** Puts what a card says into a field; tells whether anything changed. */
function put(field: HTMLElement, said: string): boolean {
  const entry = entryOf(field)!;
  const before = textOf(field);
  if (entry instanceof HTMLTextAreaElement) entry.value = [entry.defaultValue.split("\n")[0], ...said.split(" ")].join("\n");
  else entry.value = withoutUnit(unitOf(field), said);
  return textOf(field) !== before;
}
