// Fills the calculators in from the card of the reader's machine, and marks what the text says of it. Loaded by pages that
// are about several machines; they show the first one's values, and list all, without it.
import { entryOf } from "./entry";
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
    window.addEventListener("storage", ({ key }) => {
      if (key === KEY || key === null) followAll(kept()); // null: all that is kept was cleared
    });
  }
  parts.push(part);
  for (const list of own<HTMLSelectElement>(part, "select.machine")) {
    list.disabled = false;
    list.addEventListener("change", () => {
      keep(list.value);
      followAll(list.value);
    });
  }
  const name = kept() || chosen;
  if (name) follow(part, name);
}

/** What was chosen on this page, for where nothing is kept. */
let chosen = "";

function followAll(name: string): void {
  chosen = name;
  for (const part of parts) follow(part, name);
}

/** What belongs to a part and to no guide that was opened within it. */
function own<Kind extends HTMLElement>(part: HTMLElement, css: string): Kind[] {
  return [...part.querySelectorAll<Kind>(css)].filter((one) => one.closest(".branch, main") === part);
}

function kept(): string {
  try {
    return localStorage.getItem(KEY) ?? "";
  } catch {
    return ""; // without storage the choice holds for the page
  }
}

function keep(name: string): void {
  try {
    if (name) localStorage.setItem(KEY, name);
    else localStorage.removeItem(KEY);
  } catch {
    // It holds for the page.
  }
}

/** A machine that the part does not know is none: then the first one's values stand there, as without a choice. */
function follow(part: HTMLElement, name: string): void {
  const lists = own<HTMLSelectElement>(part, "select.machine");
  const names = [...(lists[0]?.options ?? [])].map(({ value }) => value).filter(Boolean);
  const at = names.indexOf(name);
  for (const list of lists) {
    list.value = names[at] ?? "";
    if (list.selectedIndex < 0) list.selectedIndex = 0;
  }
  if (part.localName === "main") {
    document.documentElement.toggleAttribute("data-machine", at >= 0);
    // The ladder of the page is the first machine's.
    document.querySelector(".ladder")?.toggleAttribute("data-others", at > 0);
  }
  for (const fact of own(part, "[data-of]")) fact.toggleAttribute("data-mine", fact.dataset.of!.split(" ").includes(String(at)));
  const forms = new Set<HTMLFormElement>();
  for (const cards of own(part, ".calculator:not([data-sent]) .cards")) {
    const card = cards.querySelectorAll("b")[Math.max(at, 0)]!;
    const said = (card.dataset.own ?? card.textContent!).replace(/\s/g, " "); // its own, where it is shown in other units
    if (put(cards.closest<HTMLElement>("[data-input]")!, said)) forms.add(cards.closest("form")!);
  }
  for (const form of forms) form.dispatchEvent(new Event("input", { bubbles: true }));
}

/** Puts what a card says into a field, the unit into the choice beside it; tells whether anything changed. */
function put(field: HTMLElement, said: string): boolean {
  const entry = entryOf(field)!;
  const units = field.querySelector<HTMLSelectElement>("select.unit");
  const before = entry.value + units?.value;
  const unit = [...(units?.options ?? [])].find(({ value }) => said.endsWith(" " + value));
  if (unit) units!.value = unit.value;
  if (entry instanceof HTMLTextAreaElement) entry.value = [entry.defaultValue.split("\n")[0], ...said.split(" ")].join("\n");
  else entry.value = unit ? said.slice(0, -unit.value.length - 1) : said;
  return entry.value + units?.value !== before;
}
