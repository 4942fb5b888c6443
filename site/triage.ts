// Asks one question after the other. What is believed, and what to do next, comes from the calculators; the words come
// from the sheet of the whole order. All that was said stands in the address, so going back takes an answer back.
import { make } from "./make";
import { answerParts, clones, key, last, stepParts } from "./asks";
import { askFor } from "./carry";
import { join } from "./entry";
import { sentence, type Answer } from "./host";
import { copyBy } from "./key";
import { recall, remember } from "./memory";
import { on } from "./on";
import { piece } from "./place";
import { report } from "./report";
import { NOTHING, read, write, type Told } from "./told";
import { weigh, weighAhead } from "./weigh";
import { givenLines, leading, rowsOf, showBelief } from "./weighed";
import { fetchWords, text, titleOf, type Words } from "./words";

const KEY = "blankoff.triage";

let page: HTMLElement;
let words: Words;
let told: Told = NOTHING;
let turn = 0;
/** The address was of no use. */
let strange = false;
/** What is asked, and which step it belongs to. The page's own tests read it from the page. */
let shown = { step: "", finding: "" };

/** What the keys change, by the name and the value of the key. */
const changes: Record<string, (value: string) => Partial<Told>> = {
  none: () => ({ clear: "yes" }),
  stop: (stop) => ({ stop }),
  slip: () => ({ stop: "" }),
  say: (said) => {
    const answers = told.answers.slice();
    const at = answers.findIndex(([name]) => name === shown.finding);
    answers.splice(at < 0 ? answers.length : at, 1, [shown.finding, said]);
    return { answers };
  },
  skip: () => ({ done: [...told.done, shown.step] }),
  helped: () => ({ ended: shown.step }),
  again: () => ({ ended: "", done: [...told.done, told.ended] }),
  pick: (pick) => ({ pick }),
  edit: (edit) => ({ edit }),
  undo: (name) => ({ done: told.done.filter((one) => one !== name) }),
  anew: () => ({ ...NOTHING, who: told.who, without: told.without }),
};

/** What the other keys do. */
const acts: Record<string, (key: HTMLButtonElement) => unknown> = {
  back,
  copy,
  share: () => navigator.share({ text: reported().value }).catch(() => {}), // closing the dialog is no fault
  report: () => openReport().scrollIntoView(),
  accuracy({ form }) {
    const entry = form!.querySelector("input")!;
    entry.value += " ± ";
    entry.focus();
  },
};

/** Until the words are there, and if they do not come, the page is as it is without scripts. */
export async function startTriage(main: HTMLElement): Promise<void> {
  words = await fetchWords(main);
  page = main;
  page.classList.add("live");
  part(".talk").hidden = false;
  part("[data-do=share]").hidden = !("share" in navigator);
  on<HTMLButtonElement>(page, "click", "[data-do]", (key) => {
    const act = key.dataset.do!;
    if (changes[act]) go(changes[act](key.value));
    else acts[act]?.(key);
  });
  page.addEventListener("submit", (event) => {
    event.preventDefault();
    const typed = join(part<HTMLInputElement>("form input").value, text(page, "form .unit"));
    if (typed) go(changes.say!(typed));
  });
  on(page, "change", "[name=who], [name=tool]", setReader); // a value typed is no reader
  addEventListener("popstate", goToAddress);
  addEventListener("pageshow", () => void show()); // back from a calculator
  if (!goToAddress()) begin();
}

function begin(): void {
  try {
    told = read(recall(KEY) || "who=customer", words);
  } catch {} // of an edition with other words
  history.replaceState(null, "", "#" + write(told));
  void show();
}

/** What stands in an address came from anywhere: it is taken as a whole, or not at all. A link within the page leads to a place,
 * and is nothing that was said. */
function goToAddress(): boolean {
  const said = location.hash.slice(1);
  if (!said || (!said.includes("=") && document.getElementById(said))) return false;
  try {
    told = read(said, words);
    strange = false;
  } catch {
    told = NOTHING;
    strange = true;
  }
  void show();
  return true;
}

/** A new entry of the history, unless it takes something back that has no entry of its own. */
function go(change: Partial<Told>, undo = false): void {
  told = after(change);
  strange = false;
  const form = write(told);
  if (undo) history.replaceState(null, "", "#" + form);
  else history.pushState("said here", "", "#" + form);
  // What can wait until the belief has changed waits: on a slow phone each of these takes milliseconds.
  void show().then(() => {
    part(".talk").scrollIntoView();
    part(".now h2").focus({ preventScroll: true });
    remember(KEY, form);
  });
}

function after(change: Partial<Told>): Told {
  return { ...told, edit: "", pick: "", ...change };
}

/** Back is always there: a page that was opened by its address has nothing to go back to, but something that was said. */
function back(): void {
  if (history.state) return history.back();
  const { answers, done } = told;
  const isAside = told.stop || told.ended || told.edit || told.pick;
  go(isAside ? { stop: "", ended: "" } : done.length ? { done: done.slice(0, -1) } : answers.length ? { answers: answers.slice(0, -1) } : { clear: "" }, true);
}

async function show(): Promise<void> {
  const mine = ++turn;
  showReader();
  const asking = told.clear && !told.stop;
  const answer: Answer = asking ? await weigh(told, words).catch((cause: unknown) => ({ error: { field: "", text: sentence(cause) } })) : {};
  if (mine !== turn) return;
  shown = { step: "", finding: "" };
  const [heading, ...parts] = !asking ? stops() : told.ended ? works() : next(answer);
  Object.assign(part(".now").dataset, shown);
  part(".now h2").replaceChildren(heading);
  part(".ask").replaceChildren(...parts);
  document.dispatchEvent(new CustomEvent("brought", { detail: part(".now") })); // its quantities follow the reader's units
  part(".progress").replaceChildren(told.ended ? "" : `${answer.out?.left?.text ?? ""} `, ...leading(answer));
  showBelief(answer, part(".belief"));
  // What cannot be weighed is not worded either, and can be changed all the same.
  const heard = answer.out ? rowsOf(answer.out.answers) : told.answers.map(([name, said]) => [name, said, "0", "", "", words.findings.get(name)!.ask, said, ""]);
  part(".given-list").replaceChildren(...(asking ? givenLines(heard, rowsOf(answer.out?.done)) : []));
  reported().value = report(told, answer, words, reported().defaultValue);
  wait();
}

/** While somebody reads, a calculator may answer, and what taps would lead to is weighed. */
function wait(): void {
  const { finding } = shown;
  const { ask, part: asked } = words.findings.get(finding) ?? { ask: "" };
  askFor({ finding, ask, from: asked?.querySelector<HTMLElement>("[data-from]")?.dataset.from ?? "", back: location.href });
  const taps = [...page.querySelectorAll<HTMLButtonElement>(".ask [data-do]:not(.quiet)")].flatMap(({ dataset, value }) => changes[dataset.do!]?.(value) ?? []);
  weighAhead(taps.map(after), words);
}

type Screen = [heading: Node | string, ...parts: (Node | string)[]];

function stops(): Screen {
  const stop = words.stops.get(told.stop);
  if (stop) return ending("Stop here", ...clones(stop, ".ask, .do"), piece(".slip"));
  const all = [...words.stops].map(([name, stop]) => key("stop", name, "", text(stop, ".ask")));
  return ["Is any of this so?", strange ? piece(".strange") : "", make("div", "answers", ...all, piece(".none"))];
}

function works(): Screen {
  return ending("It works again", titleOf(told.ended, words), piece(".works"), last());
}

function next(answer: Answer): Screen {
  const [best, ...others] = rowsOf(answer.out?.steps);
  if (told.edit) return asking(told.edit);
  if (!best) return ["This cannot be weighed", make("p", "fault", answer.error?.text ?? ""), piece(".amend"), last()];
  const [name = "", kind, , , , reason, label, asks = ""] = best;
  const step = words.steps.get(name);
  const also = piece(".else");
  // Handing over is no step of the sheet: its name leads to the report.
  also.append(...others.slice(0, 2).map((row) => key(row[0] === "hand-over" ? "report" : "pick", row[0]!, "quiet", row[6]!)));
  if (!step) return ending(label!, piece(".call"), last(), also);
  shown.step = name;
  const why = piece(".why");
  why.append(" ", reason!);
  const repair = kind === "repair";
  const about = stepParts(step.part, repair, words);
  if (repair) return [titleOf(name, words), ...about, piece(".repaired"), last(), why, also];
  if (!asks) return [titleOf(name, words), ...about, piece(".done"), last(), also];
  const [ask, ...keys] = asking(asks);
  // A question that is answered by looking or remembering stands alone; a test first says what it is and what to mind.
  return kind === "question" ? [ask, ...keys, why, ...about, also] : [titleOf(name, words), ...about, make("p", "asked", ask), ...keys, why, also];
}

function asking(name: string): Screen {
  const finding = words.findings.get(name)!;
  shown.finding = name;
  const [ask] = clones(finding.part, ".ask");
  return [make("span", "", ...ask!.childNodes), ...answerParts(name, finding, new Map(told.answers).get(name))];
}

/** What ends the talk is told to the shop. */
function ending(...screen: Screen): Screen {
  openReport();
  return screen;
}

function openReport(): HTMLElement {
  const details = part<HTMLDetailsElement>(".report");
  details.open = true;
  return details;
}

async function copy(key: HTMLElement): Promise<void> {
  if (await copyBy(key, reported())) return;
  openReport().scrollIntoView();
  reported().select(); // it may have been folded away
}

function setReader(): void {
  const box = (css: string) => [...page.querySelectorAll<HTMLInputElement>(css)].map(({ value }) => value);
  go({ who: box("[name=who]:checked")[0] as Told["who"], without: box("[name=tool]:not(:checked)") });
}

function showReader(): void {
  for (const input of page.querySelectorAll<HTMLInputElement>("[name=who], [name=tool]")) {
    input.checked = input.name === "who" ? input.value === told.who : !told.without.includes(input.value);
  }
  part(".talk").dataset.who = told.who;
  page.dataset.clear = String(!!told.clear);
  // Who asks is said once, before the first question; from then on the question has the place.
  part(told.clear ? ".report" : ".told-so-far").before(part(".reader"));
}

/** The talk stands first on the page, so that nothing below it is taken for a part of it. */
function part<Kind extends HTMLElement>(css: string): Kind {
  return page.querySelector<Kind>(css)!;
}

function reported(): HTMLTextAreaElement {
  return part("textarea");
}
