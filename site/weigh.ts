// What the calculators say of all that was told. A state is weighed once, and while somebody reads, what each tap would
// bring is worked out, so that the tap finds it ready.
import { fetchText } from "./fetched";
import { ask, whenIdle, type Answer } from "./host";
import { write, type Told } from "./told";
import type { Words } from "./words";

/** So many answers are kept at most. */
const MOST = 100;

let model: Promise<string> | undefined;
const weighed = new Map<string, Promise<Answer>>();
let turn = 0;

/** It depends on nothing but what was said. */
export function weigh(told: Told, words: Words): Promise<Answer> {
  const form = write({ ...told, clear: "", stop: "", ended: "", edit: "" });
  let answer = weighed.get(form);
  if (!answer) {
    if (weighed.size >= MOST) weighed.clear();
    weighed.set(form, (answer = reckon(told, words)));
    answer.catch(() => weighed.delete(form));
  }
  return answer;
}

/** Weighs ahead, one state at a time, until other ones are asked for. */
export function weighAhead(states: Told[], words: Words): void {
  const mine = ++turn;
  const next = () =>
    whenIdle(() => {
      const state = states.shift();
      if (state && mine === turn) weigh(state, words).then(next, () => {}); // told when it is tapped
    });
  next();
}

async function reckon({ answers, done, who, without, pick }: Told, words: Words): Promise<Answer> {
  model ??= fetchText(words.model);
  model.catch(() => (model = undefined));
  const tools = [...words.tools].filter((name) => !without.includes(name)).join() || "none";
  return ask({ id: "triage", in: { answers: answers.map((pair) => pair.join("=")).join(";"), done: done.join(), who, tools, pick } }, await model);
}
