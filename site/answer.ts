// Writes an answer as the page template does: the same elements in the same order, so that
// one style and one reading serve both. A browser test compares the two.
import type { Answer, Given, Plot } from "./host";

type Child = string | Node;

export const VERDICTS: Record<string, string> = { pass: "Pass", fail: "Fail", "cannot tell": "Cannot tell yet" };

/** Output names and the words for them, from data-labels of the block (JSON); an answer carries the names only. */
export type Labels = Record<string, string>;

/** The picture of an answer that comes without its own is drawn later; room is where, with the last one in it. */
export function answerNodes(answer: Answer, labels: Labels, room?: Element): Node[] {
  const nodes: Node[] = [];
  if (answer.verdict) nodes.push(verdict(answer.verdict));
  const outputs = Object.entries(answer.out ?? {}).map(([name, given]) => output(name, given, labels));
  if (outputs.length) nodes.push(make("dl", "outputs", ...outputs));
  if (answer.working?.length) nodes.push(make("details", "working", make("summary", "", "Working"), make("ol", "", ...items(answer.working))));
  if (answer.plot) nodes.push(plotted(answer.plot));
  else if (room) nodes.push(room);
  room?.setAttribute("aria-busy", "true");
  if (answer.cautions?.length) nodes.push(make("ul", "cautions", ...items(answer.cautions)));
  return nodes;
}

export function waiting(text: string): Node {
  return make("p", "waiting", text);
}

function verdict({ is, text }: { is: string; text: string }): Node {
  const line = make("p", "verdict", make("strong", "", VERDICTS[is] ?? is), " ", make("span", "because", text));
  line.dataset.is = is.replace(" ", "-");
  return line;
}

function output(name: string, given: Given, labels: Labels): Node {
  const label = labels[name] ?? name;
  const line = make("div", "", make("dt", "", label), make("dd", "", ...(given.columns ? [table(label, given)] : shown(given))));
  line.dataset.output = name;
  return line;
}

/** The number has 12 figures: beyond them, the browser's and the native computation may differ. */
function shown({ value, text, also }: Given): Child[] {
  const isNumber = value !== undefined;
  const data = make(isNumber ? "data" : "span", "value", text);
  if (isNumber) data.setAttribute("value", String(+value.toPrecision(12)));
  return also?.length ? [data, " ", make("span", "also", "= " + also.join("; "))] : [data];
}

function table(label: string, { columns = [], rows = [], shown = [] }: Given): Node {
  // Words begin at the left, numbers end at the right.
  const kinds = columns.map((_, i) => (rows.some((row) => typeof row[i] === "number") ? "" : "words"));
  const heads = columns.map((column, i) => {
    const head = make("th", kinds[i], column.unit ? `${column.label}, ${column.unit}` : column.label) as HTMLTableCellElement;
    head.scope = "col";
    return head;
  });
  const lines = shown.map((cells) => make("tr", "", ...cells.map((cell, i) => make("td", kinds[i], cell))));
  const frame = make("div", "rows", make("table", "", make("thead", "", make("tr", "", ...heads)), make("tbody", "", ...lines)));
  return Object.assign(frame, { tabIndex: 0, role: "group", ariaLabel: label });
}

/** The calculators wrote the picture and escaped what stands in it; a script in it would not run all the same. */
export function plotted({ svg, every, head, rows }: Plot): HTMLElement {
  const figure = make("figure", "plot");
  figure.innerHTML = svg;
  if (rows.length) {
    const name = every > 1 ? `Table: one reading of ${every}` : "Table";
    const columns = head.map((label) => ({ name: "", label, unit: "" }));
    figure.append(make("details", "", make("summary", "", name), table(name, { text: "", columns, rows: [head.map(() => 0)], shown: rows })));
  }
  return figure;
}

function items(lines: string[]): Node[] {
  return lines.map((line) => make("li", "", line));
}

export function make(tag: string, name: string | undefined, ...children: Child[]): HTMLElement {
  const element = document.createElement(tag);
  if (name) element.className = name;
  element.append(...children.map((child) => (typeof child === "string" ? unbroken(child) : child)));
  return element;
}

/** Keeps a number and what follows it, and both sides of a ±, on one line; the build does the same (unbroken.go). */
function unbroken(text: string): string {
  return text.replace(/ ?± ?/g, (sign) => sign.replaceAll(" ", "\u00a0")).replace(/([0-9]) (?=[\p{L}%°])/gu, "$1\u00a0");
}
