// Asks one question after the other. What is believed, and what to do next, comes from the calculators; the words come
// from the sheet of the whole order. All that was said stands in the address, so going back takes an answer back.
import { make } from "./answer";
import { answerKeys, keys, stepParts, type Next } from "./asks";
import { sentence, type Answer } from "./host";
import { button } from "./key";
import { report } from "./report";
import { NOTHING, read, UNKNOWN, write, type Told } from "./told";
import { weigh, weighAhead } from "./weigh";
import { beliefParts, givenParts, leading, rowsOf, time } from "./weighed";
import { fetchWords, text, type Step, type Words } from "./words";

const KEY = "blankoff.triage";

let page: HTMLElement;
let words: Words;
let told: Told = NOTHING;
let turn = 0;
/** What is being shown, for the page's own tests. */
let shown = { step: "", finding: "" };

/** Until the words are there, and if they do not come, the page is as it is without scripts. */
export async function startTriage(main: HTMLElement): Promise<void> {
  words = await fetchWords(main.dataset.sheet!, main);
  page = main;
  page.classList.add("live");
  part(".talk").hidden = false;
  page.addEventListener("change", ({ target }) => {
    if ((target as HTMLInputElement).matches("[name=who], [name=tool]")) setReader(); // a value typed is no reader
  });
  addEventListener("popstate", () => goTo(location.hash.slice(1)));
  on("anew", () => go({ ...NOTHING, who: told.who, without: told.without }));
  on("copy", (key) => void copy(key));
  on("share", () => void navigator.share({ text: reported().value }).catch(() => {})); // closing the dialog is no fault
  if ("share" in navigator) part("[data-do=share]").hidden = false;
  begin();
}

function begin(): void {
  const here = location.hash.slice(1);
  if (here && !isPlace(here)) return goTo(here);
  try {
    told = read(kept() || "who=customer", words);
  } catch {
    told = NOTHING; // of an edition with other words
  }
  history.replaceState(null, "", "#" + write(told));
  void show();
}

/** What stands in an address came from anywhere: it is taken as a whole, or not at all. */
function goTo(fragment: string): void {
  if (isPlace(fragment)) return;
  try {
    told = read(fragment, words);
    void show();
  } catch {
    told = NOTHING;
    void show("The address holds something that this page does not know, so none of it was used. Open the link again, or begin here.");
  }
}

/** A new entry of the history, unless it takes something back that has no entry of its own. */
function go(change: Partial<Told>, undo = false): void {
  told = { ...told, edit: "", pick: "", ...change };
  const form = write(told);
  if (undo) history.replaceState(null, "", "#" + form);
  else history.pushState("said here", "", "#" + form);
  keep(form);
  void show().then(() => part(".now h2").focus({ preventScroll: true }));
  part(".talk").scrollIntoView();
}

/** Back is always there: a page that was opened by its address has nothing to go back to, but something that was said. */
function back(): void {
  if (history.state) return history.back();
  const { answers, done } = told;
  if (told.stop || told.ended || told.edit || told.pick) go({ stop: "", ended: "" }, true);
  else if (done.length) go({ done: done.slice(0, -1) }, true);
  else go(answers.length ? { answers: answers.slice(0, -1) } : { clear: false }, true);
}

async function show(warning = ""): Promise<void> {
  const mine = ++turn;
  showReader();
  if (told.stop || !told.clear) {
    for (const css of [".progress", ".belief", ".given"]) fill(css);
    tell(undefined);
    if (told.stop) showStop(words.stops.get(told.stop)!);
    else askStops(warning);
    ahead({ clear: true });
    return;
  }
  const answer = await weigh(told, words, page.dataset.model!).catch((cause: unknown): Answer => ({ error: { field: "", text: sentence(cause) } }));
  if (mine !== turn) return;
  tell(answer);
  showNow(answer);
  fill(".belief", ...(answer.error ? [] : beliefParts(answer, words)));
  fill(".given", ...givenParts(told, answer, words, (edit) => go({ edit }), (name) => go({ done: told.done.filter((one) => one !== name) })));
}

/** What taps would lead to is weighed while somebody reads. */
function ahead(...taps: Partial<Told>[]): void {
  weighAhead(taps.map((tap) => ({ ...told, ...tap })), words, page.dataset.model!);
}

function askStops(warning: string): void {
  const stops = [...words.stops].map(([name, stop]) => button(text(stop, ".ask"), () => go({ stop: name })));
  now("Is any of this so?", warning ? make("p", "fault", warning) : "", keys("answers", ...stops, button("None of these", () => go({ clear: true }), "none")));
}

function showStop(stop: HTMLElement): void {
  now("Stop here", make("p", "", text(stop, ".ask")), stop.querySelector(".do")!.cloneNode(true), keys("keys", button("That was a slip: it is not so", () => go({ stop: "" }))));
}

function showNow(answer: Answer): void {
  const list = nexts(answer);
  const best = list[0];
  const left = best && best.kind !== "hand-over" && !told.ended ? `, about ${time(best.minutes)} to go` : "";
  fill(".progress", `${told.answers.length} answered${left}. `, ...leading(answer));
  if (told.ended) return showEnd(words.steps.get(told.ended)!);
  if (told.edit) return now(words.findings.get(told.edit)!.ask, ...asked(told.edit));
  if (answer.error) return now("This cannot be weighed", make("p", "fault", answer.error.text), "Change what you said, or begin anew.", lastKeys());
  const chosen = told.pick || unfinished()?.name || best?.name || "";
  const row = list.find(({ name }) => name === chosen);
  const also = list.filter(({ name }) => name !== chosen).slice(0, 2);
  const step = words.steps.get(chosen);
  if (step) showStep(step, row, list[1], also);
  else showHandOver(also);
}

/** A test of which one finding was told is told to its end first. */
function unfinished(): Step | undefined {
  const last = told.answers.at(-1);
  if (!last || last[1] === UNKNOWN) return undefined;
  return [...words.steps.values()].find((step) => step.who.includes(told.who) && step.tells.includes(last[0]) && open(step).some((name) => step.tells.indexOf(name) > step.tells.indexOf(last[0])));
}

/** Findings of a step that are still to be told and that count beside the answers given. */
function open(step: Step): string[] {
  const said = new Map(told.answers);
  return step.tells.filter((name) => !said.has(name) && words.findings.get(name)!.when.every(([on, answers]) => answers.includes(said.get(on) ?? "")));
}

function showStep(step: Step, row: Next | undefined, second: Next | undefined, also: Next[]): void {
  const name = open(step)[0];
  const finding = name ? words.findings.get(name) : undefined;
  const skip = () => go({ done: [...told.done, step.name] });
  const { head, why, risks } = stepParts(step, finding, row, second, words);
  shown.step = step.name;
  if (!step.tells.length) {
    ahead({ done: [...told.done, step.name] });
    const helped = keys("answers", button("Yes, it works", () => go({ ended: step.name }), "helped"), button("No", skip, "no-help"), lastKeys());
    return now(step.title, ...head, make("p", "asked", "Did it help?"), helped, ...why, alternatives(also));
  }
  const answers = name ? asked(name) : [keys("answers", button("Done", skip), lastKeys())];
  // A question that is answered by looking or remembering stands alone; a test first says what it is and what to mind.
  if (finding && row?.kind === "question") return now(finding.ask, ...answers, ...why, ...risks, ...head, alternatives(also));
  now(step.title, ...risks, ...head, finding ? make("p", "asked", finding.ask) : "", ...answers, ...why, alternatives(also));
}

function asked(name: string): Node[] {
  const saying = (answer: string): Partial<Told> => {
    const answers = told.answers.slice();
    const at = answers.findIndex(([other]) => other === name);
    answers.splice(at < 0 ? answers.length : at, 1, [name, answer]);
    return { answers };
  };
  const say = (answer: string) => go(saying(answer));
  ahead(...[...words.findings.get(name)!.answers.keys(), UNKNOWN].map(saying));
  shown.finding = name;
  return answerKeys(words.findings.get(name)!, new Map(told.answers).get(name), say, lastKeys(button("I don't know", () => say(UNKNOWN), UNKNOWN)));
}

/** The keys nearest to the thumb. */
function lastKeys(...more: Node[]): Node {
  return keys("last", button("Back", back, "back"), ...more);
}

function alternatives(also: Next[]): Node | string {
  if (!also.length) return "";
  const named = ({ name, own }: Next) => (name === "hand-over" ? handOver() : `${words.steps.get(name)?.title}, ${own} min`);
  // Handing over is no step of the sheet: its name leads to the report.
  const take = ({ name }: Next) => (name === "hand-over" ? openReport() : go({ pick: name }));
  return make("div", "else", make("p", "", "Next best:"), ...also.map((next) => button(named(next), () => take(next), "quiet")));
}

function handOver(): string {
  return told.who === "customer" ? "Call the shop" : "Hand it to the shop";
}

function showHandOver(also: Next[]): void {
  const why = told.who === "customer" ? "Nothing else that is safe for you is likely to end it sooner." : "Nothing else that can be done with these tools is likely to end it sooner.";
  const send = keys("answers", button("Copy what was found out", (key) => void copy(key), "none"), lastKeys());
  now(handOver(), make("p", "", why), make("p", "", "Send what was found out: it stands below as text. Add the serial number, and the reading with its unit."), send, alternatives(also));
}

function showEnd(step: Step): void {
  const again = button("It came back", () => go({ ended: "", done: [...told.done, step.name] }));
  now("It works again", make("p", "", `${step.title}: that was it. Prove it with a measurement, and write it down.`), keys("answers", again, lastKeys()));
  openReport(false);
}

function tell(answer: Answer | undefined): void {
  reported().value = report(told, answer, words, { shop: text(document.body, ".shop"), address: location.href });
  // What ends the talk is told to the shop.
  if (told.stop || (answer && nexts(answer)[0]?.kind === "hand-over")) openReport(false);
}

function openReport(look = true): void {
  const details = part(".report") as HTMLDetailsElement;
  details.open = true;
  if (look) details.scrollIntoView({ block: "center" });
}

async function copy(key: HTMLElement): Promise<void> {
  try {
    await navigator.clipboard.writeText(reported().value);
    key.textContent = "Copied";
  } catch {
    openReport();
    reported().select(); // then the reader's own key copies it
    key.textContent = "Selected: copy it by hand";
  }
}

function setReader(): void {
  const box = (css: string) => [...page.querySelectorAll<HTMLInputElement>(css)];
  const who = box("input[name=who]").find(({ checked }) => checked)?.value === "technician" ? "technician" : "customer";
  go({ who, without: box("input[name=tool]").filter(({ checked }) => !checked).map(({ value }) => value) });
}

function showReader(): void {
  for (const input of page.querySelectorAll<HTMLInputElement>("input[name=who], input[name=tool]")) {
    input.checked = input.name === "who" ? input.value === told.who : !told.without.includes(input.value);
  }
  part(".talk").dataset.who = told.who;
  page.dataset.clear = String(told.clear);
  // Who asks is said once, before the first question; from then on the question has the place.
  part(told.clear ? ".report" : ".told-so-far").before(part(".reader"));
}

function now(heading: string, ...parts: (Node | string)[]): void {
  Object.assign(part(".now").dataset, shown);
  shown = { step: "", finding: "" };
  fill(".now h2", heading);
  fill(".ask", ...parts);
}

function fill(css: string, ...parts: (Node | string)[]): void {
  part(css).replaceChildren(...parts);
}

/** The talk stands first on the page, so that nothing below it is taken for a part of it. */
function part(css: string): HTMLElement {
  return page.querySelector<HTMLElement>(css)!;
}

function reported(): HTMLTextAreaElement {
  return part("textarea") as HTMLTextAreaElement;
}

function on(name: string, act: (key: HTMLElement) => void): void {
  const key = part(`[data-do=${name}]`);
  key.addEventListener("click", () => act(key));
}

/** A link within the page leads to a place, and is nothing that was said. */
function isPlace(fragment: string): boolean {
  return !fragment.includes("=") && document.getElementById(fragment) !== null;
}

function nexts({ out }: Answer): Next[] {
  return rowsOf(out?.steps).map(({ cells: [name, kind, minutes, , , reason], shown }) => ({ name: String(name), kind: String(kind), minutes: Number(minutes), own: shown[3] ?? "", reason: String(reason) }));
}

/** A browser may refuse its storage; then the address alone keeps what was said. */
function kept(): string {
  try {
    return localStorage.getItem(KEY) ?? "";
  } catch {
    return "";
  }
}

function keep(form: string): void {
  try {
    localStorage.setItem(KEY, form);
  } catch {}
}
