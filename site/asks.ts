// What one screen of the triage is made of. What stands there always is in the page, in a template.
import { make } from "./make";
import { carriedTo } from "./carry";
import { piece } from "./place";
import { UNKNOWN } from "./told";
import type { Finding, Words } from "./words";

type Part = Node | string;

/** A key that says what it does; triage.ts listens for all of them. */
export function key(act: string, value: string, kind: string, ...label: Part[]): HTMLButtonElement {
  const made = make("button", kind, ...label) as HTMLButtonElement;
  made.value = value;
  made.dataset.do = act;
  return made;
}

export function clones(part: ParentNode, css: string): Node[] {
  return [...part.querySelectorAll(css)].map((child) => child.cloneNode(true));
}

export function last(...more: Node[]): Node {
  const keys = piece(".last");
  keys.append(...more);
  return keys;
}

/** The answers to choose from, or the entry of a value, which may come from a calculator. */
export function answerParts(name: string, { ask, answers, valued, part }: Finding, said = ""): Node[] {
  const { got, source } = carriedTo(name);
  const sources = [...(got ? [make("p", "got", `${source}: ${got}`)] : []), ...clones(part, ".sources")];
  const end = last(piece(".unknown"));
  if (!valued) {
    const keys = [...answers].map(([answer, words]) => key("say", answer, "", words));
    for (const one of keys) one.ariaPressed = one.value === said ? "true" : null;
    return [...sources, make("div", "answers", ...keys), end];
  }
  const form = piece("form");
  const entry = form.querySelector("input")!;
  Object.assign(entry, { inputMode: part.dataset.keypad, ariaLabel: ask, value: got || (said === UNKNOWN ? "" : said) });
  form.querySelector("span")!.textContent = part.dataset.unit!;
  return [form, piece(".help"), ...sources, end];
}

/** What to know of a step before it is done. A repair unfolds how to avoid its hazards, and where no guide warns, it says what holds for all. */
export function stepParts(part: HTMLElement, repair: boolean, { sheet }: Words): Node[] {
  const risks = part.querySelector(".risks");
  const mind = piece(".mind") as HTMLDetailsElement;
  if (risks) {
    mind.firstElementChild!.innerHTML = risks.innerHTML.replace(/<\/?a\b[^>]*>/g, ""); // our own sheet; a summary holds no links
    mind.append(...[...risks.querySelectorAll("a")].flatMap(({ hash }) => clones(sheet, `${hash} .hazard`)));
    mind.open = repair;
  }
  return [...(risks ? [mind] : repair ? clones(sheet, ".safe") : []), ...clones(part, ".notes, .do, .stop")];
}
