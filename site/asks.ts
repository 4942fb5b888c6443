// What one screen of the triage is made of: the keys for an answer, and what to know of a step before it is done.
import { make } from "./answer";
import { button } from "./key";
import { UNKNOWN } from "./told";
import type { Finding, Step, Words } from "./words";
import { time } from "./weighed";

/** A row of the engine's table of steps. */
export interface Next {
  name: string;
  kind: string;
  minutes: number; // to the end of the job, on average
  own: string;
  reason: string;
}

export function keys(name: string, ...parts: Node[]): HTMLElement {
  return make("div", name, ...parts);
}

export function answerKeys(finding: Finding, said: string | undefined, say: (answer: string) => void, last: Node): Node[] {
  if (finding.valued) return [valueForm(finding, said, say), keys("answers", last)];
  const choices = [...finding.answers].map(([answer, words]) => {
    const key = button(words, () => say(answer));
    key.dataset.say = answer;
    if (answer === said) key.setAttribute("aria-pressed", "true");
    return key;
  });
  return [keys("answers", ...choices, last)];
}

function valueForm({ ask, unit, part }: Finding, said: string | undefined, say: (answer: string) => void): Node {
  const entry = make("input", "") as HTMLInputElement;
  // A keypad of figures has no minus, which a temperature or a voltage may need.
  Object.assign(entry, { type: "text", inputMode: unit && !/(°.|K|V|A)$/.test(unit) ? "decimal" : "text", enterKeyHint: "done", maxLength: 40, autocomplete: "off", value: said === UNKNOWN ? "" : (said ?? "") });
  entry.setAttribute("aria-label", ask);
  const form = make("form", "value-of", entry, make("span", "unit", unit), make("button", "", "Take it")) as HTMLFormElement;
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const typed = entry.value.trim();
    if (typed) say(withUnit(typed, unit));
  });
  const sources = part.querySelector(".sources")?.cloneNode(true) ?? "";
  return make("div", "", form, make("p", "help", unit ? "A value may carry its ±." : "A number, such as 4.5 or 364/8. It may carry its ±."), sources);
}

/** "-28 ± 1" in °C is "-28 °C ± 1 °C". What holds a unit of its own is for the calculators to judge. */
function withUnit(typed: string, unit: string): string {
  const figures = /^[\d\s.,'’+\-−/]+$/;
  const [value = "", accuracy] = typed.split(/\s*(?:±|\+\/?[-−])\s*/);
  if (!unit || !figures.test(value)) return typed;
  if (accuracy === undefined) return `${value} ${unit}`;
  if (figures.test(accuracy)) return `${value} ${unit} ± ${accuracy} ${unit}`;
  return accuracy.endsWith("%") ? `${value} ${unit} ± ${accuracy}` : typed;
}

/** What a step is and why it is the next one. */
export function stepParts({ part, tells, who }: Step, finding: Finding | undefined, row: Next | undefined, second: Next | undefined, words: Words): { head: Node[]; why: Node[]; risks: Node[] } {
  const clones = (css: string) => [...part.querySelectorAll(css)].map((child) => child.cloneNode(true));
  const notes = [...part.querySelectorAll(".notes > span:not(.led)")].map((note) => note.textContent!);
  if (who.length < 2) notes.splice(1, 1); // for whom it is goes without saying to the only one it is for
  const guide = part.querySelector(".led a");
  const link = make("p", "guide", notes.join(" · "), ...(guide ? [" · Guide: ", guide.cloneNode(true)] : []));
  const mind = hazards(part, words, !tells.length);
  if (tells.length) return { head: [link], why: why(row, second, finding), risks: mind };
  // Where no guide warns, there is what holds for all.
  const before = mind.length ? mind : [words.safe.cloneNode(true)];
  return { head: [...before, link, ...clones(".do, .stop")], why: why(row, second, finding), risks: [] };
}

/** The signal words with what they stand for; a tap tells how to avoid it. */
function hazards(part: HTMLElement, words: Words, open: boolean): Node[] {
  const risks = part.querySelector(".risks");
  if (!risks) return [];
  const briefs = [...risks.querySelectorAll("a")].map(({ hash }) => words.hazards.get(hash.slice("#hazard-".length))!.cloneNode(true));
  const brief = make("summary", "risks");
  for (const word of [...(risks.cloneNode(true) as HTMLElement).children]) {
    for (const link of word.querySelectorAll("a")) link.replaceWith(link.textContent!);
    brief.append(word, " ");
  }
  const all = make("details", "mind", brief, ...briefs) as HTMLDetailsElement;
  all.open = open;
  return [all];
}

/** The engine names answers and gives minutes; here stand the answers' own words, and hours. */
function why(row: Next | undefined, second: Next | undefined, finding: Finding | undefined): Node[] {
  if (!row) return [];
  const worded = (all: string, answer: string) => (finding?.answers.has(answer) ? `“${finding.answers.get(answer)!.replace(/\.$/, "")}”` : all);
  const reason = row.reason.replace(/ Soonest on average:.*$/, "").replace(/“([^”]*)”/g, worded);
  const [mine, other] = [time(row.minutes), second ? time(second.minutes) : ""];
  const next = mine === other ? "the next best step is about as good" : `${other} with the next best step`;
  const against = second && row.minutes <= second.minutes ? ` On average ${mine} of work to the end; ${next}.` : "";
  return [make("p", "why", make("b", "", "Why this: "), reason + against)];
}
