// What a reader has said, and its form behind the # of an address. The address alone restores it; a form that does not
// fit the page's own words is refused as a whole.
import { must } from "./must";
import type { Finding, Words } from "./words";

export interface Told {
  who: "customer" | "technician";
  without: string[]; // tools that are not at hand
  clear: "" | "yes"; // none of the safety questions is so
  stop: string; // the one that is
  answers: [finding: string, answer: string][];
  done: string[]; // tests without a result, repairs that did not help
  ended: string; // the repair that helped
  edit: string; // the finding whose answer is being changed
  pick: string; // the step that the reader prefers to the best one
}

export const NOTHING: Told = { who: "customer", without: [], clear: "", stop: "", answers: [], done: [], ended: "", edit: "", pick: "" };

export const UNKNOWN = "unknown";
const LONGEST = 4000;
/** What a value may be made of. The calculators say whether it is one. */
const VALUE = /^[\p{L}\d\s.,'’±%°+\-−/·×²³^]{1,40}$/u;

export function write(told: Told): string {
  const form = (value: Told[keyof Told]) => [value].flat().map((item) => [item].flat().map(encodeURIComponent).join(":")).join();
  return Object.entries(told).filter(([, value]) => value.length).map(([key, value]) => `${key}=${form(value)}`).join("&");
}

/** Throws where anything in it is not a word of this page. */
export function read(fragment: string, words: Words): Told {
  must(fragment.length <= LONGEST);
  const { findings, steps, stops, tools } = words;
  const known: Record<string, { has(name: string): boolean }> = {
    who: new Set(["customer", "technician"]), without: tools, clear: new Set(["yes"]), stop: stops,
    answers: findings, done: steps, ended: steps, edit: findings, pick: steps,
  };
  const told: Record<string, unknown> = { ...NOTHING };
  for (const part of fragment.split("&")) {
    const [key = "", list = "", ...more] = part.split("=");
    must(Object.hasOwn(NOTHING, key) && !more.length);
    const items = list.split(",").filter(Boolean).map((item) => item.split(":").map(decodeURIComponent));
    for (const [name = "", ...said] of items) must(known[key]!.has(name) && (key === "answers" ? isAnswer(findings.get(name)!, said) : !said.length));
    told[key] = key === "answers" ? items : Array.isArray(told[key]) ? items.flat() : (items[0]?.[0] ?? told[key]);
  }
  const { pick, who } = told as unknown as Told;
  // An address leads nobody to work that is not for him.
  must(!pick || steps.get(pick)!.who.includes(who));
  return told as unknown as Told;
}

function isAnswer({ valued, answers }: Finding, [said = "", ...more]: string[]): boolean {
  return !more.length && (said === UNKNOWN || (valued ? VALUE.test(said) : answers.has(said)));
}
