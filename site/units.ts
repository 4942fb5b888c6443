// Shows the page in the units that the reader chose, and lets the reader choose.
import { answered, fetchTables } from "./choices";
import { fieldsTo } from "./fields";
import { recall, remember } from "./memory";
import { on } from "./on";
import { picturesIn } from "./scales";
import { rewrite, plain, type Choice, type Written } from "./rewrite";
import look from "./units.css";
import { openUnits } from "./unitsheet";
import { wear } from "./wear";

let chosen: Choice = {};

/** Where the choice is kept, as JSON. Another page of the site, in another tab, hears of a change. */
const KEY = "blankoff.units";

export function startUnits(): void {
  if (Object.keys(kept()).length) follow().catch(console.error); // all stays as it was written
  window.addEventListener("storage", ({ key }) => {
    if (key === KEY || key === null) void follow(); // null: all that is kept was cleared
  });
  const button = document.querySelector<HTMLButtonElement>(".thumb button");
  if (!button) return;
  button.disabled = false;
  button.addEventListener("click", () => void open());
}

/** Shows what is kept. */
async function follow(): Promise<void> {
  await fetchTables();
  chosen = kept();
  apply();
}

/** Opens the choice; every change shows at once. */
async function open(): Promise<void> {
  await wear(look);
  await follow().catch(console.error); // the sheet says so
  openUnits(chosen, (next) => {
    chosen = next;
    remember(KEY, Object.keys(next).length ? JSON.stringify(next) : "");
    apply();
  });
}

/** A choice that cannot be read is none: somebody else may use the same place. */
function kept(): Choice {
  try {
    return Object(JSON.parse(recall(KEY) || "{}")) as Choice;
  } catch {
    return {};
  }
}

let listens = false;

/** From the first choice on. */
function listen(): void {
  listens = true;
  void wear(look);
  on<HTMLDataElement>(document, "click", TURNS, turn);
  on<HTMLDataElement>(document, "keydown", TURNS, (quantity, event) => /^(Enter| )$/.test((event as KeyboardEvent).key) && turn(quantity, event));
  document.addEventListener("brought", apply); // a part of another page was opened in this one
  // The card of another machine was put into the form: what it says is shown as the rest, before the calculator reads it.
  addEventListener("input", ({ target }) => target instanceof HTMLFormElement && fieldsTo(chosen), true);
}

function apply(): void {
  if (!listens) listen();
  const all = [...document.querySelectorAll<HTMLDataElement>("data[data-steps]")].map(read);
  for (const { element, own, told, block } of all) {
    // `350 mTorr (46.7 Pa)` says the same twice, to show what the one is in the other: it must not become 46.7 Pa (46.7 Pa).
    const isSaidBeside = () => all.some((other) => other.block === block && textOf(other.own) !== textOf(own) && plain(other.told ?? textOf(other.own)) === plain(told!));
    if (told === undefined || isSaidBeside()) restore(element, own);
    else tell(element, told);
  }
  picturesIn(chosen);
  fieldsTo(chosen);
  document.documentElement.dataset.units = JSON.stringify(Object.assign({}, ...Object.values(chosen).map((unit) => answered[unit])));
  document.dispatchEvent(new Event("units"));
}

/** A quantity of the page, with what would stand there in the unit of choice. */
interface Read {
  element: HTMLDataElement;
  own: Node[]; // what the author wrote
  told: string | undefined;
  block: Element | null;
}

/** What the author wrote, by element. */
const authors = new WeakMap<HTMLDataElement, Node[]>();

function read(element: HTMLDataElement): Read {
  const own = authors.get(element) ?? [...element.childNodes];
  authors.set(element, own);
  const told = rewrite({ ...element.dataset, value: element.value, text: textOf(own) } as Written, chosen);
  return { element, own, told, block: element.closest("p, li, tr, dd, div, h2, h3") };
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
}

function restore(quantity: HTMLDataElement, own: Node[]): void {
  if (!quantity.dataset.shows) return;
  quantity.replaceChildren(...own);
  for (const mark of ["data-shows", "data-told", "title", "tabindex", "role"]) quantity.removeAttribute(mark);
}

const TURNS = "data[role=button]";

function turn(quantity: HTMLDataElement, event: Event): void {
  event.preventDefault();
  tell(quantity, quantity.dataset.told!, quantity.dataset.shows === "anew" ? authors.get(quantity) : undefined);
}
