// One job as a person reads it, on the page and in print.
import { make } from "./make";
import { clock } from "./clock";
import { root } from "./place";
import { standing } from "./standing";
import type { Entry } from "./work";

/** A guide or calculator page of the job, with what was done there, in the order of the first entry. */
export interface Part {
  title: string;
  states: string[]; // those of the guide that were followed
  text: string; // the digest of the last of them
  page: string;
  lines: Line[];
}

interface Line {
  at: number;
  place: string;
  head: string; // "Step 3 done"
  said: string[]; // what the step asks for, what was noted, results
  rows: string[]; // readings
  small: string[]; // formula and working
}

export function partsOf(all: Entry[]): Part[] {
  const parts = new Map<string, Part>();
  for (const entry of lastOfEach(standing(all))) {
    const { page } = entry;
    let part = parts.get(page);
    if (!part) parts.set(page, (part = { title: page, states: [], text: "", page, lines: [] }));
    const last = part.lines.at(-1);
    if (entry.is === "guide") {
      part.title = entry.text || page;
      part.text = entry.told?.text ?? "";
      part.states.push(stateOf(entry));
    } else if (entry.is === "reading" && last?.rows.length && last.place === entry.place) last.rows.push(readingOf(entry));
    else part.lines.push(lineOf(entry));
  }
  return [...parts.values()].filter(({ lines }) => lines.length);
}

/** Of a note, a tick and a calculator only the last word counts; what was emptied or unticked is left out. Readings all count. */
function lastOfEach(entries: Entry[]): Entry[] {
  const last = new Map<string, Entry>();
  for (const entry of entries) if (entry.is !== "reading") last.set(slotOf(entry), entry);
  return entries.filter((entry) => (entry.is === "reading" || last.get(slotOf(entry)) === entry) && entry.is !== "untick" && !(entry.is === "note" && !entry.text?.trim()));
}

function slotOf({ page, place, is, told }: Entry): string {
  return [page, place, is.replace("untick", "tick"), told?.text].join("\n");
}

/** Which words were followed: the author's revision, and by digest the text, the site and its calculators as they were. */
function stateOf({ at, told = {} }: Entry): string {
  const { revision } = told;
  const names = ["text", "edition", "calculators"].filter((name) => told[name]);
  return [...(revision ? [revision] : []), ...names.map((name) => `${name} ${told[name]}`), "from " + clock(at)].join(", ");
}

function readingOf({ given = {} }: Entry): string {
  return Object.values(given).join(", ");
}

function lineOf(entry: Entry): Line {
  const { at, place, is, text = "", given = {}, told = {} } = entry;
  const line: Line = { at, place, head: place.replace("step-", "Step ") + " done", said: [text], rows: [], small: [] };
  if (is === "note") line.head = "Note at " + place.replace("-", " ");
  if (is === "reading") Object.assign(line, { head: "Readings", said: [], rows: [readingOf(entry)] });
  if (is === "result") {
    const { Formula = "", Working = "", ...results } = told;
    const pairs = (of: Record<string, string>, sign: string) => Object.entries(of).map(([name, one]) => name + sign + `${one ?? ""}`.replaceAll("\n", "; "));
    line.head = text || "Result";
    line.said = [...pairs(results, ": "), "Entered: " + pairs(given, " ").join(", ")];
    line.small = [...Formula.split("\n").map((one) => one && "Formula: " + one), ...Working.split("\n")].filter(Boolean);
  }
  return line;
}

/** A page name came with the entry; only what looks like one of ours becomes an address. */
export const OURS = /^[a-z0-9/-]*$/;

const paragraphs = (texts: string[], kind = "") => texts.map((text) => make("p", kind, text));
const list = (tag: string, kind: string, texts: string[]) => (texts.length ? [make(tag, kind, ...texts.map((text) => make("li", "", text)))] : []);

export function partNode({ title, states, page, lines }: Part): HTMLElement {
  const link = make("a", "", title) as HTMLAnchorElement;
  if (OURS.test(page)) link.href = root + page;
  const done = lines.map(({ at, head, said, rows, small }) =>
    make(
      "li", "",
      make("p", "head", make("b", "", head), " ", make("span", "when", clock(at))),
      ...paragraphs(said.filter(Boolean)),
      ...list("ul", "readings", rows),
      ...(small.length ? [make("details", "", make("summary", "", "Formula and working"), ...list("ul", "small", small))] : []),
    ),
  );
  return make("section", "of-page", make("h3", "", link), ...paragraphs(states, "when"), make("ol", "lines", ...done));
}
