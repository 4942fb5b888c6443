// What is believed, and what each answer weighs, as bars with words and numbers.
import { make } from "./answer";
import type { Answer, Given } from "./host";
import { UNKNOWN, type Told } from "./told";
import type { Words } from "./words";

/** Causes below this are not shown while the first ones are open. */
const WORTH = 0.02;
const MOST = 5;
/** A weight of so many tenths of a ban fills half of its bar: odds a hundred times as high. */
const FULL = 20;
/** Of answers that are so improbable beside the others, one is wrong, or the cause is not listed. */
const SURPRISE = 0.05;

interface Row {
  cells: (number | string)[];
  shown: string[];
}

function rows(given: Given | undefined): Row[] {
  return (given?.rows ?? []).map((cells, i) => ({ cells, shown: given?.shown?.[i] ?? [] }));
}

export function beliefParts({ out, verdict, cautions }: Answer, words: Words): Node[] {
  const causes = rows(out?.causes).filter(({ cells }, i) => i < MOST && Number(cells[2]) >= WORTH);
  const groups = rows(out?.groups).slice(0, 4);
  const turns = rows(out?.turns).map(({ cells: [finding, answer, cause], shown }) => {
    const known = words.findings.get(String(finding));
    return make("li", "", `${known?.ask ?? finding} ${known?.answers.get(String(answer)) ?? answer} `, make("b", "", `Then: ${cause}, ${shown[3]}`));
  });
  const mind = (cautions ?? []).filter((line) => !/^(Recheck this answer|Ask first)/.test(line));
  return [
    make("h2", "", "What it may be"),
    make("p", "so-far", verdict?.text ?? ""),
    bars(causes.map(({ cells: [, title, share], shown }) => ({ title: String(title), share: Number(share), shown: shown[2] ?? "" }))),
    folded(groups[0] ? `By part of the machine: ${groups[0].cells[0]}, ${groups[0].shown[1]}` : "By part of the machine", bars(groups.map(({ cells: [title, share], shown }) => ({ title: String(title), share: Number(share), shown: shown[1] ?? "" })))),
    ...(turns.length ? [folded("What would change this", make("ul", "", ...turns))] : []),
    folded("Mind", make("ul", "", ...mind.map((line) => make("li", "", line)))),
  ];
}

function bars(list: { title: string; share: number; shown: string }[]): Node {
  return make("ul", "bars", ...list.map(({ title, share, shown }) => make("li", "", make("span", "what", title), make("span", "how", `${word(share)}, ${shown}`), bar(share))));
}

/** The words are ours; the number stands beside them. */
function word(share: number): string {
  if (share >= 0.8) return "very likely";
  if (share >= 0.5) return "likely";
  return share >= 0.2 ? "possible" : "less likely";
}

function bar(share: number): HTMLElement {
  const full = make("i", "bar");
  full.style.width = `${Math.round(1000 * Math.min(share, 1)) / 10}%`;
  return full;
}

export function givenParts(told: Told, { out }: Answer, words: Words, change: (finding: string) => void, undo: (step: string) => void): Node[] {
  const weighed = new Map(rows(out?.answers).map((row) => [String(row.cells[0]), row]));
  const answers = told.answers.map(([name, said]) => {
    const { ask, answers } = words.findings.get(name)!;
    const shown = said === UNKNOWN ? "I don't know" : (answers.get(said) ?? said);
    const line = make("button", "said", make("span", "ask", ask), make("b", "", shown), ...weight(weighed.get(name), said));
    (line as HTMLButtonElement).type = "button";
    line.addEventListener("click", () => change(name));
    return make("li", "", line);
  });
  const done = told.done.map((name) => {
    const step = words.steps.get(name)!;
    const line = make("button", "said", make("span", "ask", step.title), make("b", "", step.tells.length ? "Done." : "It did not help."));
    (line as HTMLButtonElement).type = "button";
    line.addEventListener("click", () => undo(name));
    return make("li", "", line);
  });
  if (!answers.length && !done.length) return [];
  return [make("h2", "", "What you said"), make("p", "", "Tap a line to change it. A bar to the right speaks for the first cause, one to the left against it."), make("ul", "given-list", ...answers, ...done)];
}

function weight(row: Row | undefined, said: string): Node[] {
  if (!row || said === UNKNOWN) return [make("span", "how", "moves nothing")];
  const [, , bans, usual, sentence] = row.cells;
  const share = Math.min(Math.abs(Number(bans)) / FULL, 1) / 2;
  const part = bar(share);
  part.classList.add(Number(bans) < 0 ? "against" : "for");
  const recheck = Number(usual) < SURPRISE ? [make("strong", "recheck", "Recheck this answer")] : [];
  return [make("span", "how", String(sentence).replace(/ Check it again:.*$/, "")), make("span", "scale", part), ...recheck];
}

function folded(title: string, ...parts: Node[]): Node {
  return make("details", "", make("summary", "", title), ...parts);
}
