// Shows the page in the units that the reader chose, and lets the reader choose.
import { fieldsIn } from "./fields";
import { picturesIn } from "./scales";
import { rewrite, unitsFor, plain, type Choice, type Written } from "./rewrite";
import look from "./units.css";
import { openSheet } from "./unitsheet";
import { wear } from "./wear";

let chosen: Choice = {};

/** Where the choice is kept, as JSON. Another page of the site, in another tab, hears of a change. */
const KEY = "blankoff.units";

export function startUnits(): void {
  if (Object.keys(kept()).length) follow();
  window.addEventListener("storage", ({ key }) => {
    if (key === KEY || key === null) follow(); // null: all that is kept was cleared
  });
  const button = document.querySelector<HTMLButtonElement>(".thumb button");
  if (!button) return;
  button.disabled = false;
  button.addEventListener("click", () => void open());
}

/** Shows what is kept. */
function follow(): void {
  chosen = kept();
  apply();
}

/** Opens the choice; every change shows at once. */
async function open(): Promise<void> {
  await wear(look);
  follow();
  openSheet(chosen, (next) => {
    chosen = next;
    keep(next);
    apply();
  });
}

/** A choice that cannot be read is none: somebody else may use the same place. */
function kept(): Choice {
  try {
    const read: unknown = JSON.parse(localStorage.getItem(KEY) ?? "{}");
    return read && typeof read === "object" ? (read as Choice) : {};
  } catch {
    // Without storage the choice holds for this page.
    return chosen;
  }
}

function keep(choice: Choice): void {
  try {
    if (Object.keys(choice).length) localStorage.setItem(KEY, JSON.stringify(choice));
    else localStorage.removeItem(KEY);
  } catch {
    // It holds for this page.
  }
}

/** What calculators are asked for: by kind one unit, the smallest of the choice, but litres and gallons. */
const ANSWERED = ["pressure", "rate of pressure change", "leak rate", "temperature", "length", "volume"];

let listens = false;

/** From the first choice on. */
function listen(): void {
  listens = true;
  void wear(look);
  document.addEventListener("click", turn);
  document.addEventListener("keydown", (event) => {
    if (event.key === "Enter" || event.key === " ") turn(event);
  });
  document.addEventListener("brought", apply); // a part of another page was opened in this one
  // The card of another machine was put into the form: what it says is shown as the rest, before the calculator reads it.
  addEventListener("input", ({ target }) => target instanceof HTMLFormElement && fieldsIn(chosen), true);
}

function apply(): void {
  if (!listens) listen();
  const quantities = [...document.querySelectorAll<HTMLDataElement>("data[data-steps]")].map(read);
  for (const quantity of quantities) {
    const { element, nodes, told } = quantity;
    if (told === undefined || isSaidBeside(quantity, quantities)) restore(element, nodes);
    else tell(element, told);
  }
  picturesIn(chosen);
  fieldsIn(chosen);
  const units = ANSWERED.flatMap((kind) => {
    const wanted = unitsFor(kind, chosen);
    const unit = kind === "volume" ? wanted[0] : wanted.at(-1);
    return unit ? [[kind, unit[0]]] : [];
  });
  const root = document.documentElement;
  if (units.length) root.dataset.units = JSON.stringify(Object.fromEntries(units));
  else delete root.dataset.units;
  document.dispatchEvent(new Event("units"));
}

/** A quantity of the page, with what would stand there in the unit of choice. */
interface Read {
  element: HTMLDataElement;
  nodes: Node[];
  text: string;
  told: string | undefined;
  block: Element | null;
}

/** What the author wrote, by element. */
const authors = new WeakMap<HTMLDataElement, Node[]>();

function read(element: HTMLDataElement): Read {
  const nodes = authors.get(element) ?? [...element.childNodes];
  authors.set(element, nodes);
  const text = textOf(nodes);
  const { kind, steps } = element.dataset;
  const told = rewrite({ kind, value: element.value, steps, text } as Written, chosen);
  return { element, nodes, text, told, block: element.closest("p, li, tr, dd, div, h2, h3") };
}

/** `350 mTorr (46.7 Pa)` says the same twice, to show what the one is in the other: it must not become 46.7 Pa (46.7 Pa). */
function isSaidBeside({ text, told, block }: Read, all: Read[]): boolean {
  return all.some((other) => other.block === block && other.text !== text && plain(other.told ?? other.text) === plain(told!));
}

function textOf(nodes: Node[]): string {
  return nodes.map((node) => node.textContent).join("");
}

/** Inside a link a tap follows the link. */
const TAKEN = "a, .entries, summary, label";

/** Shows a quantity in the unit of choice; a second text to show is the author's, beside which this one stays in reach. */
function tell(quantity: HTMLDataElement, told: string, written?: Node[]): void {
  const own = textOf(authors.get(quantity)!);
  quantity.dataset.told = told;
  quantity.dataset.shows = written ? "written" : "anew";
  quantity.replaceChildren(...(written ?? [told]));
  quantity.title = written ? `in your units: ${told}` : `written: ${own}`;
  if (quantity.closest(TAKEN)) return;
  quantity.tabIndex = 0;
  quantity.role = "button";
  quantity.ariaLabel = written ? `as written ${own}, in your units ${told}` : `${told}, written ${own}`;
}

function restore(quantity: HTMLDataElement, nodes: Node[]): void {
  if (!quantity.dataset.shows) return;
  quantity.replaceChildren(...nodes);
  for (const mark of ["data-shows", "data-told", "title", "tabindex", "role", "aria-label"]) quantity.removeAttribute(mark);
}

function turn(event: Event): void {
  const quantity = (event.target as Element).closest<HTMLDataElement>("data[role=button]");
  if (!quantity) return;
  event.preventDefault();
  tell(quantity, quantity.dataset.told!, quantity.dataset.shows === "anew" ? authors.get(quantity) : undefined);
}
