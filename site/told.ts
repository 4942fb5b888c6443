// What a reader has said, and its form behind the # of an address. The address alone restores it; a form that does not
// fit the page's own words is refused as a whole.
import type { Words } from "./words";

export interface Told {
  who: "customer" | "technician";
  without: string[]; // tools that are not at hand
  clear: boolean; // none of the safety questions is so
  stop: string; // the one that is
  answers: [finding: string, answer: string][];
  done: string[]; // tests without a result, repairs that did not help
  ended: string; // the repair that helped
  edit: string; // the finding whose answer is being changed
  pick: string; // the step that the reader prefers to the best one
}

export const NOTHING: Told = { who: "customer", without: [], clear: false, stop: "", answers: [], done: [], ended: "", edit: "", pick: "" };

export const UNKNOWN = "unknown";
const LONGEST = 4000;
/** What a value may be made of. The calculators say whether it is one. */
const VALUE = /^[\p{L}\d\s.,'’±%°+\-−/·×²³^µΩ]{1,40}$/u;

export function write(told: Told): string {
  const list = (items: string[], by = ",") => items.map(encodeURIComponent).join(by);
  const all = { ...told, without: list(told.without), clear: told.clear ? "yes" : "", answers: told.answers.map((pair) => list(pair, ":")).join(), done: list(told.done) };
  return Object.entries(all).filter(([, value]) => value).map((pair) => pair.join("=")).join("&");
}

/** Throws where anything in it is not a word of this page. */
export function read(fragment: string, words: Words): Told {
  must(fragment.length <= LONGEST);
  const given = new Map(fragment.split("&").map((part) => [part.slice(0, part.indexOf("=")), part.slice(part.indexOf("=") + 1)]));
  for (const key of given.keys()) must(Object.hasOwn(NOTHING, key));
  const list = (key: string) => (given.get(key) ?? "").split(",").filter(Boolean);
  const among = (key: string, known: { has(name: string): boolean }) => list(key).map(decodeURIComponent).map((name) => (must(known.has(name)), name));
  const one = (key: string, known: { has(name: string): boolean }) => among(key, known)[0] ?? "";
  const who = (one("who", new Set(["customer", "technician"])) || NOTHING.who) as Told["who"];
  const pick = one("pick", words.steps);
  // An address leads nobody to work that is not for him.
  must(!pick || words.steps.get(pick)!.who.includes(who));
  return {
    who,
    without: among("without", words.tools),
    clear: one("clear", new Set(["yes"])) !== "",
    stop: one("stop", words.stops),
    answers: list("answers").map((pair) => answer(pair, words)),
    done: among("done", words.steps),
    ended: one("ended", words.steps),
    edit: one("edit", words.findings),
    pick,
  };
}

function answer(pair: string, words: Words): Told["answers"][number] {
  const [name = "", said = "", ...more] = pair.split(":").map(decodeURIComponent);
  const finding = words.findings.get(name);
  must(finding && !more.length);
  must(said === UNKNOWN || (finding.valued ? VALUE.test(said) : finding.answers.has(said)));
  return [name, said];
}

function must(holds: unknown): asserts holds {
  if (!holds) throw new Error("not a word of this page");
}
