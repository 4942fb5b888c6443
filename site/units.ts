// Shows the quantities of the page in the units that the reader chose, and lets the reader choose. Loaded only when asked
// for, see asked.ts.
import { topics, type Unit } from "./choices";
import { rewrite } from "./rewrite";
import look from "./units.css";
import { openSheet, rowOf, type Choice } from "./unitsheet";
import { wear } from "./wear";

await wear(look);

let chosen: Choice = {};
let prepared = false;

/** Shows what is kept. */
export function followChoice(key: string): void {
  prepare();
  chosen = kept(key);
  apply();
}

/** Opens the choice; every change shows at once. */
export function openChoice(key: string): void {
  followChoice(key);
  openSheet(chosen, (next) => {
    chosen = next;
    keep(key, next);
    apply();
  });
}

/** A choice that cannot be read is none: somebody else may use the same place. */
function kept(key: string): Choice {
  try {
    const read: unknown = JSON.parse(localStorage.getItem(key) ?? "{}");
    return read && typeof read === "object" ? (read as Choice) : {};
  } catch {
    // Without storage the choice holds for this page.
    return chosen;
  }
}

function keep(key: string, choice: Choice): void {
  try {
    if (Object.keys(choice).length) localStorage.setItem(key, JSON.stringify(choice));
    else localStorage.removeItem(key);
  } catch {
    // It holds for this page.
  }
}

function unitsFor(kind: string): Unit[] | undefined {
  for (const topic of topics) {
    const of = topic.kinds.find(({ kinds }) => kinds.includes(kind));
    if (of) return of.units[rowOf(topic, chosen[topic.name])];
  }
  return undefined;
}

/** What the author wrote, by element; and what stands there anew, where another unit was asked for. */
const authors = new WeakMap<HTMLDataElement, Node[]>();
const anew = new WeakMap<HTMLDataElement, string>();

function apply(): void {
  document.documentElement.toggleAttribute("data-units", Object.keys(chosen).length > 0);
  applyToAxes();
  const quantities = [...document.querySelectorAll<HTMLDataElement>("data[data-steps]")].map(read);
  const blocks = new Map<Element | null, Read[]>();
  for (const quantity of quantities) {
    const beside = blocks.get(quantity.block);
    if (beside) beside.push(quantity);
    else blocks.set(quantity.block, [quantity]);
  }
  for (const quantity of quantities) {
    const { element, nodes, text, told, block } = quantity;
    if (told === undefined || isSaidBeside(quantity, blocks.get(block)!)) restore(element, nodes);
    else tell(element, told, text);
  }
}

/** Axes of plots keep one unit from end to end: the smallest of the choice. Those who draw them hear of a change. */
function applyToAxes(): void {
  const axes: Record<string, string> = {};
  for (const kind of ["pressure", "temperature"]) {
    const unit = unitsFor(kind)?.at(-1);
    if (unit) axes[kind] = unit.symbol;
  }
  document.documentElement.dataset.axes = JSON.stringify(axes);
  document.dispatchEvent(new Event("axes"));
}

/** A quantity of the page, with what would stand there in the unit of choice. */
interface Read {
  element: HTMLDataElement;
  nodes: Node[];
  text: string;
  told: string | undefined;
  block: Element | null;
}

function read(element: HTMLDataElement): Read {
  let nodes = authors.get(element);
  if (!nodes) authors.set(element, (nodes = [...element.childNodes]));
  const text = textOf(nodes);
  const units = unitsFor(element.dataset.kind ?? "");
  const told = units && rewrite({ value: element.value, steps: element.dataset.steps!, text }, units);
  return { element, nodes, text, told, block: element.closest("p, li, tr, dd, div, h2, h3") };
}

/** `350 mTorr (46.7 Pa)` says the same twice, to show what the one is in the other: it must not become 46.7 Pa (46.7 Pa). */
function isSaidBeside({ text, told }: Read, beside: Read[]): boolean {
  return beside.some((other) => other.text !== text && plain(other.told ?? other.text) === plain(told!));
}

function plain(text: string): string {
  return text.replace(/\s/g, " ");
}

function textOf(nodes: Node[]): string {
  return nodes.map((node) => node.textContent).join("");
}

/** Inside a link a tap follows the link. */
const TAKEN = "a, .entries, summary, label";

function tell(quantity: HTMLDataElement, told: string, written: string): void {
  anew.set(quantity, told);
  quantity.dataset.shows = "anew";
  quantity.textContent = told;
  name(quantity, `written: ${written}`, `${told}, written ${written}`);
}

function showAuthors(quantity: HTMLDataElement): void {
  const nodes = authors.get(quantity)!;
  const told = anew.get(quantity)!;
  quantity.dataset.shows = "written";
  quantity.replaceChildren(...nodes);
  name(quantity, `in your units: ${told}`, `as written ${textOf(nodes)}, in your units ${told}`);
}

function name(quantity: HTMLDataElement, title: string, label: string): void {
  quantity.title = title;
  if (quantity.closest(TAKEN)) return;
  quantity.tabIndex = 0;
  quantity.setAttribute("role", "button");
  quantity.setAttribute("aria-label", label);
}

function restore(quantity: HTMLDataElement, nodes: Node[]): void {
  if (!anew.delete(quantity)) return;
  quantity.replaceChildren(...nodes);
  for (const mark of ["data-shows", "title", "tabindex", "role", "aria-label"]) quantity.removeAttribute(mark);
}

function turn(event: Event): void {
  const quantity = (event.target as Element).closest<HTMLDataElement>("data[role=button]");
  if (!quantity) return;
  event.preventDefault();
  const told = anew.get(quantity)!;
  if (quantity.dataset.shows === "anew") showAuthors(quantity);
  else tell(quantity, told, textOf(authors.get(quantity)!));
}

function prepare(): void {
  if (prepared) return;
  prepared = true;
  document.addEventListener("click", turn);
  document.addEventListener("brought", apply); // a part of another page was opened in this one
  document.addEventListener("keydown", (event) => {
    if (event.key === "Enter" || event.key === " ") turn(event);
  });
}
