// One job as a person reads it: on the page and in print as elements, in a message as plain text. Both come from the same lines.
import { make } from "./answer";
import { standing } from "./standing";
import { clock } from "./clock";
import type { Entry, Job } from "./work";

/** A guide or calculator page of the job, with what was done there, in the order of the first entry. */
interface Part {
  title: string;
  revision: string;
  page: string;
  lines: Line[];
}

interface Line {
  at: number;
  head: string; // "Step 3 done"
  said: string; // what the step asks for
  more: string[]; // readings, results
  small: string[]; // working
}

export function nameOf(job: Job): string {
  return job.serial || [job.machine, job.customer].filter(Boolean).join(", ") || "Unnamed job";
}

export function partsOf(all: Entry[]): Part[] {
  const parts = new Map<string, Part>();
  for (const entry of lastOfEach(standing(all))) {
    let part = parts.get(entry.page);
    if (!part) parts.set(entry.page, (part = { title: entry.page, revision: "", page: entry.page, lines: [] }));
    if (entry.is === "guide") {
      part.title = entry.text || entry.page;
      part.revision = [entry.told?.revision, entry.told?.edition && `edition ${entry.told.edition}`].filter(Boolean).join(", ");
    } else part.lines.push(lineOf(entry));
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
  return [page, place, is === "untick" ? "tick" : is, is === "guide" ? told?.edition : ""].join("\n");
}

function lineOf({ at, place, is, text = "", given, told }: Entry): Line {
  const step = /^step-\d+$/.test(place) ? place.replace("step-", "Step ") : "";
  const line: Line = { at, head: step, said: "", more: [], small: [] };
  if (is === "tick") [line.head, line.said] = [`${step || place} done`, text];
  if (is === "note") [line.head, line.said] = [step ? `Note at step ${place.slice(5)}` : "Note", text];
  if (is === "reading") [line.head, line.more] = ["Reading", [Object.values(given ?? {}).join(", ")]];
  if (is === "result") {
    const { Working, ...results } = told ?? {};
    line.head = text || "Result";
    line.more = [...Object.entries(results).map(([name, one]) => `${name}: ${one}`), "Entered: " + Object.entries(given ?? {}).map(([name, one]) => `${name} ${one.replaceAll("\n", "; ")}`).join(", ")];
    line.small = (Working ?? "").split("\n").filter(Boolean);
  }
  return line;
}

const HEADS: [keyof Job, string][] = [["machine", "Machine"], ["serial", "Serial"], ["customer", "Customer reference"], ["who", "Initials"]];

export function sheetText(job: Job, all: Entry[]): string {
  const lines = [`Work record: ${nameOf(job)}`, `Begun: ${day(job.begun)}`];
  for (const [name, label] of HEADS) if (job[name]) lines.push(`${label}: ${job[name]}`);
  for (const part of partsOf(all)) {
    lines.push("", part.title + (part.revision ? ` (${part.revision})` : ""));
    for (const { at, head, said, more, small } of part.lines) {
      lines.push(`${clock(at)} ${head}${said ? ": " + said : ""}`, ...more.map((one) => "  " + one), ...small.map((one) => "    " + one));
    }
  }
  return lines.join("\n") + "\n";
}

export function sheetNodes(root: string, all: Entry[]): Node[] {
  return partsOf(all).map((part) => {
    const link = make("a", "", part.title) as HTMLAnchorElement;
    // A page name came with the entry; only what looks like one of ours becomes an address.
    if (/^[a-z0-9/-]*$/.test(part.page)) link.href = root + part.page;
    const lines = part.lines.map(({ at, head, said, more, small }) =>
      make(
        "li", "",
        make("p", "head", make("b", "", head), " ", make("span", "when", clock(at))),
        ...(said ? [make("p", "", said)] : []),
        ...more.map((one) => make("p", "", one)),
        ...(small.length ? [make("details", "", make("summary", "", "Working"), make("ol", "", ...small.map((one) => make("li", "", one))))] : []),
      ),
    );
    return make("section", "of-page", make("h3", "", link), ...(part.revision ? [make("p", "when", part.revision)] : []), make("ol", "lines", ...lines));
  });
}

export function day(at: number): string {
  return new Date(at).toLocaleString([], { dateStyle: "medium", timeStyle: "short" });
}
