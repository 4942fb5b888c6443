// The sheet on which a reader chooses units. It exists only while it is open.
import { presets, topics, type Topic } from "./choices";

/** Topics and the unit chosen, named by the last of its row; what is not named stays as it was written. */
export type Choice = Record<string, string>;

/** The row of the unit that a topic's choice names; -1 where none is. */
export function rowOf(topic: Topic, symbol: string | undefined): number {
  return topic.kinds[0]!.units.findIndex((row) => row[row.length - 1]!.symbol === symbol);
}

const AS_WRITTEN = "as written";

export function openSheet(first: Choice, changed: (choice: Choice) => void): void {
  let choice = { ...first };
  const lists = topics.map((topic) => [topic, listOf(topic)] as const);
  const keys = [["As written", {}] as const, ...presets.map(({ name, choices }) => [name, choices] as const)].map(
    ([label, choices]) => [key(label), choices] as const,
  );
  const take = (next: Choice) => {
    choice = next;
    for (const [topic, list] of lists) list.selectedIndex = rowOf(topic, choice[topic.name]) + 1;
    for (const [button, choices] of keys) button.setAttribute("aria-pressed", String(same(choice, choices)));
  };
  const change = (next: Choice) => {
    take(next);
    changed(choice);
  };
  for (const [button, choices] of keys) button.addEventListener("click", () => change({ ...choices }));
  for (const [topic, list] of lists) list.addEventListener("change", () => change(withOne(choice, topic, list.selectedIndex - 1)));
  take(choice);
  show(
    make("h2", "", "Units"),
    make("div", "keys", ...keys.map(([button]) => button)),
    ...lists.map(([topic, list]) => field(topic, list)),
    make("p", "help", "Numbers keep the precision that they were written with. Tap one to see what its author wrote."),
  );
}

function show(...content: Node[]): void {
  const close = key("Done");
  const dialog = make("dialog", "units", ...content, make("div", "keys", close));
  dialog.setAttribute("aria-label", "Units of the text");
  close.addEventListener("click", () => dialog.close());
  // What lies behind the sheet belongs to it as well: a tap there ends it.
  dialog.addEventListener("click", (event) => event.target === dialog && dialog.close());
  dialog.addEventListener("close", () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
}

function withOne(choice: Choice, topic: Topic, row: number): Choice {
  const { [topic.name]: _, ...others } = choice;
  const units = topic.kinds[0]!.units[row];
  return units ? { ...others, [topic.name]: units[units.length - 1]!.symbol } : others;
}

function same(a: Choice, b: Choice): boolean {
  return topics.every(({ name }) => a[name] === b[name]);
}

function listOf(topic: Topic): HTMLSelectElement {
  const list = make("select", "");
  list.id = "units-" + topic.name;
  const rows = topic.kinds[0]!.units.map((row) => row.map(({ symbol }) => symbol).reverse().join(", "));
  list.append(...[AS_WRITTEN, ...rows].map((text) => new Option(text)));
  return list;
}

function field(topic: Topic, list: HTMLSelectElement): Node {
  const label = make("label", "", topic.label);
  label.htmlFor = list.id;
  return make("div", "field", label, make("div", "entry", list));
}

function key(label: string): HTMLButtonElement {
  const button = make("button", "", label);
  button.type = "button";
  return button;
}

function make<Tag extends keyof HTMLElementTagNameMap>(tag: Tag, name: string, ...children: (string | Node)[]): HTMLElementTagNameMap[Tag] {
  const element = document.createElement(tag);
  if (name) element.className = name;
  element.append(...children);
  return element;
}
