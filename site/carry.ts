// Carries a result from a calculator to the question of the triage that wants it. The question is kept for this tab only: two
// machines in two tabs do not mix. What comes back is put before the reader, who takes it or changes it.
import { make } from "./make";
import { recall, remember, tab } from "./memory";
import { calledOf } from "./place";
import { text } from "./words";

export const ASKED = "blankoff.asked";

/** What is asked, and where. */
export interface Asked {
  finding: string;
  ask: string;
  from: string; // "rise-test/times", or "rise-log" where the reader draws the answer from it
  back: string; // the address of the question
  source?: string; // the calculator's title, once it has answered
  got?: string;
}

const NOTHING: Asked = { finding: "", ask: "", from: "", back: "" };

function kept(): Asked {
  return JSON.parse(recall(ASKED, tab) || "null") ?? NOTHING;
}

function keep(asked: Asked): void {
  remember(ASKED, asked.from && JSON.stringify(asked), tab);
}

/** What a calculator gave for a question. */
export function carriedTo(finding: string): Asked {
  const asked = kept();
  return asked.finding === finding ? asked : NOTHING;
}

/** The same question asked again keeps what it got. */
export function askFor(asked: Asked): void {
  keep({ ...carriedTo(asked.finding), ...asked });
}

/** Listens for answers to what the reader typed, not to an example or to a machine's values, and offers to go back with them. */
export function startCarrying(): void {
  const typed = new WeakSet<Element>();
  const touch = ({ target, isTrusted }: Event) => {
    const block = (target as Element).closest<HTMLElement>(".calculator");
    if (!isTrusted || !block) return;
    typed.add(block);
    bring(block, ""); // an old result must not stand beside new entries
  };
  addEventListener("input", touch, true);
  addEventListener("answered", ({ target }) => {
    const block = target as HTMLElement;
    const output = kept().from.split("/")[1];
    if (typed.has(block)) bring(block, text(block, output ? `[data-output="${output}"] .value` : ".verdict").replace(/\s+/g, " "));
  });
}

function bring(block: HTMLElement, got: string): void {
  const asked = kept();
  if (block.dataset.calculator !== asked.from.split("/")[0]) return;
  block.querySelector(".carry")?.remove();
  keep({ ...asked, got, source: calledOf(block) });
  if (!got) return;
  const link = make("a", "", `Take it to the question: ${asked.ask}`) as HTMLAnchorElement;
  link.href = asked.back;
  block.querySelector(".answer")!.after(make("p", "carry", link));
}
