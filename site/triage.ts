// Asks one question after the other. What is believed, and what to do next, comes from the calculators; the words come
// from the page. All that was said stands in the address, so going back takes an answer back.
import { make } from "./answer";
import { ask, sentence, type Answer } from "./host";
import { beliefParts, givenParts } from "./weighed";
import { report } from "./report";
import { NOTHING, read, UNKNOWN, write, type Told } from "./told";
import { readWords, text, type Finding, type Step, type Words } from "./words";

const KEY = "blankoff.triage";

export function startTriage(main: HTMLElement): void {
  main.classList.add("live");
  new Triage(main).begin();
}

/** A row of the engine's table of steps. */
interface Next {
  name: string;
  kind: string;
  minutes: number;
  own: string;
  reason: string;
}

class Triage {
  private readonly words: Words;
  private readonly talk: HTMLElement;
  private told: Told = NOTHING;
  private turn = 0;
  private model?: Promise<string>;
  /** What is shown, for the page's own tests and for style sheets. */
  private step = "";
  private finding = "";

  constructor(private readonly main: HTMLElement) {
    this.words = readWords(main);
    this.talk = main.querySelector<HTMLElement>(".talk")!;
    this.talk.hidden = false;
    this.talk.addEventListener("change", ({ target }) => {
      if ((target as HTMLInputElement).matches("[name=who], [name=tool]")) this.setReader(); // a value typed is no reader
    });
    addEventListener("popstate", () => this.goTo(location.hash.slice(1)));
    this.on("anew", () => this.go({ ...NOTHING, who: this.told.who, without: this.told.without }));
    this.on("plan", (button) => button.setAttribute("aria-expanded", String(main.classList.toggle("whole"))));
    this.on("copy", (button) => void this.copy(button));
    this.on("share", () => void navigator.share({ text: this.report.value }).catch(() => {})); // closing the dialog is no fault
    if ("share" in navigator) this.key("share").hidden = false;
  }

  begin(): void {
    const here = location.hash.slice(1);
    if (here && !isPlace(here)) return this.goTo(here);
    try {
      this.told = read(kept() || "who=customer", this.words);
    } catch {
      this.told = NOTHING; // of an edition with other words
    }
    history.replaceState(null, "", "#" + write(this.told));
    void this.show();
  }

  /** What stands in an address came from anywhere: it is taken as a whole, or not at all. */
  private goTo(fragment: string): void {
    if (isPlace(fragment)) return;
    try {
      this.told = read(fragment, this.words);
      void this.show();
    } catch {
      this.told = NOTHING;
      void this.show("The address holds something that this page does not know, so none of it was used. Open the link again, or begin here.");
    }
  }

  private go(change: Partial<Told>): void {
    this.told = { ...this.told, edit: "", pick: "", ...change };
    const form = write(this.told);
    history.pushState(null, "", "#" + form);
    keep(form);
    void this.show().then(() => this.heading.focus({ preventScroll: true }));
    this.talk.scrollIntoView();
  }

  private async show(warning = ""): Promise<void> {
    const turn = ++this.turn;
    this.showReader();
    const { told } = this;
    if (told.stop || !told.clear) {
      this.progress("");
      this.fill(".belief");
      this.fill(".given");
      this.tell(undefined);
      return told.stop ? this.showStop(told.stop) : this.askStops(warning);
    }
    let answer: Answer;
    try {
      answer = await this.weigh();
    } catch (cause) {
      answer = { error: { field: "", text: sentence(cause) } };
    }
    if (turn !== this.turn) return;
    this.tell(answer);
    this.showNow(answer);
    this.fill(".belief", ...(answer.error ? [] : beliefParts(answer, this.words)));
    this.fill(".given", ...givenParts(told, answer, this.words, (edit) => this.go({ edit }), (name) => this.go({ done: told.done.filter((one) => one !== name) })));
  }

  private async weigh(): Promise<Answer> {
    const { told, words } = this;
    this.model ??= fetchText(this.main.dataset.model!).catch((cause: unknown) => {
      this.model = undefined;
      throw cause;
    });
    const tools = [...words.tools].filter((name) => !told.without.includes(name));
    return ask({
      id: "triage",
      in: {
        model: await this.model,
        answers: told.answers.map((pair) => pair.join("=")).join("; "),
        done: told.done.join(", "),
        who: told.who,
        tools: tools.join(", ") || "none",
      },
    });
  }

  private askStops(warning: string): void {
    const stops = [...this.words.stops].map(([name, part]) => this.button(text(part, ".ask"), () => this.go({ stop: name })));
    this.now("Is any of this so?", warning ? make("p", "fault", warning) : "", keys("answers", ...stops, this.button("None of these", () => this.go({ clear: true }), "none")));
  }

  private showStop(name: string): void {
    const part = this.words.stops.get(name)!;
    this.now("Stop here", make("p", "", text(part, ".ask")), part.querySelector(".do")!.cloneNode(true), keys("keys", this.button("That was a slip: it is not so", () => this.go({ stop: "" }))));
  }

  private showNow(answer: Answer): void {
    const { told } = this;
    const [best, ...others] = nexts(answer);
    const count = told.answers.length;
    const left = best && best.kind !== "hand-over" && !told.ended ? `, about ${time(best.minutes)} of work to go` : "";
    this.progress(`${count} answered${left}`);
    if (told.ended) return this.showEnd(this.words.steps.get(told.ended)!);
    if (told.edit) return this.askFinding(told.edit);
    if (answer.error) return this.now("This cannot be weighed", make("p", "fault", answer.error.text), "Change what you said, or begin anew.");
    const chosen = told.pick || this.unfinished()?.name || best?.name || "";
    const row = nexts(answer).find(({ name }) => name === chosen);
    const step = this.words.steps.get(chosen);
    const also = [best!, ...others].filter(({ name }) => name !== chosen).slice(0, 2);
    if (step) this.showStep(step, row, also);
    else this.now("Hand it to the shop", make("p", "", row?.reason ?? ""), make("p", "", "Send what was found out: it stands below as text."), this.alternatives(also));
  }

  /** A test of which one finding was told is told to its end first. */
  private unfinished(): Step | undefined {
    const last = this.told.answers.at(-1);
    if (!last || last[1] === UNKNOWN) return undefined;
    return [...this.words.steps.values()].find((step) => step.tells.includes(last[0]) && this.open(step).length > 0 && step.tells.indexOf(last[0]) < step.tells.indexOf(this.open(step)[0]!));
  }

  /** Findings of a step that are still to be told and that count beside the answers given. */
  private open(step: Step): string[] {
    const said = new Map(this.told.answers);
    return step.tells.filter((name) => !said.has(name) && this.words.findings.get(name)!.when.every(([on, answers]) => answers.includes(said.get(on) ?? "")));
  }

  private showStep(step: Step, row: Next | undefined, also: Next[]): void {
    const { part, tells } = step;
    this.step = step.name;
    const guide = part.querySelector<HTMLAnchorElement>(".notes a");
    const link = guide ? make("p", "guide", "Guide: ", guide.cloneNode(true)) : "";
    const name = this.open(step)[0];
    const finding = name && this.words.findings.get(name);
    const worded = (all: string, answer: string) => (finding && finding.answers.has(answer) ? `“${finding.answers.get(answer)!.replace(/\.$/, "")}”` : all);
    const why = row ? [make("p", "why", `${row.own} min. ${row.reason.replace(/“([^”]*)”/g, worded)}`)] : [];
    if (tells.length) {
      const asked = row?.kind === "question";
      const skip = () => this.go({ done: [...this.told.done, step.name] });
      const rest = finding ? this.answers(name, finding) : [keys("answers", this.button("Done", skip))];
      const head = asked && finding ? [] : [link, finding ? make("p", "asked", finding.ask) : ""];
      return this.now(asked && finding ? finding.ask : step.title, ...head, ...rest, ...why, asked ? link : "", this.alternatives(also));
    }
    const what = [...part.querySelectorAll(".do, .stop"), this.main.querySelector(".safe")!].map((child) => child.cloneNode(true));
    const no = () => this.go({ done: [...this.told.done, step.name] });
    this.now(step.title, link, ...what, make("p", "asked", "Did it help?"), keys("answers", this.button("Yes, it works", () => this.go({ ended: step.name }), "helped"), this.button("No", no, "no-help")), ...why, this.alternatives(also));
  }

  private askFinding(name: string): void {
    const finding = this.words.findings.get(name)!;
    this.now(finding.ask, ...this.answers(name, finding), keys("keys", this.button("Leave it as it is", () => history.back())));
  }

  private answers(name: string, finding: Finding): Node[] {
    const say = (answer: string) => {
      const pairs = this.told.answers.slice();
      const at = pairs.findIndex(([other]) => other === name);
      pairs.splice(at < 0 ? pairs.length : at, 1, [name, answer]);
      this.go({ answers: pairs });
    };
    const said = new Map(this.told.answers).get(name);
    this.finding = name;
    const unknown = this.button("I don't know", () => say(UNKNOWN), UNKNOWN);
    const by = finding.by ? [finding.by.cloneNode(true)] : [];
    if (finding.valued) return [...by, valueForm(finding, said, say), keys("answers", unknown)];
    const choices = [...finding.answers].map(([answer, words]) => {
      const button = this.button(words, () => say(answer));
      button.dataset.say = answer;
      if (answer === said) button.setAttribute("aria-pressed", "true");
      return button;
    });
    return [...by, keys("answers", ...choices, unknown)];
  }

  private alternatives(also: Next[]): Node {
    if (!also.length) return document.createTextNode("");
    const named = ({ name, own }: Next) => (name === "hand-over" ? "Hand it to the shop" : `${this.words.steps.get(name)?.title}, ${own} min`);
    // Handing over is no step of the page: its name leads to the report.
    const take = ({ name }: Next) => (name === "hand-over" ? this.openReport() : this.go({ pick: name }));
    return make("p", "else", "Or: ", ...also.flatMap((next) => [this.button(named(next), () => take(next), "quiet"), " "]));
  }

  private showEnd(step: Step): void {
    this.now("It works again", make("p", "", `${step.title}: that was it. Prove it with a measurement, and write it down.`), keys("keys", this.button("It came back", () => this.go({ ended: "", done: [...this.told.done, step.name] }))));
    this.openReport();
  }

  private tell(answer: Answer | undefined): void {
    this.report.value = report(this.told, answer, this.words, { shop: text(document.body, ".shop"), address: location.href });
    // What ends the talk is told to the shop.
    if (this.told.stop || nexts(answer ?? {})[0]?.kind === "hand-over") this.openReport(false);
  }

  private openReport(look = true): void {
    const details = this.talk.querySelector<HTMLDetailsElement>(".report")!;
    details.open = true;
    if (look) details.scrollIntoView({ block: "center" });
  }

  private async copy(button: HTMLElement): Promise<void> {
    try {
      await navigator.clipboard.writeText(this.report.value);
      button.textContent = "Copied";
    } catch {
      this.report.select(); // then the reader's own key copies it
      button.textContent = "Selected: copy it by hand";
    }
  }

  private setReader(): void {
    const box = (css: string) => [...this.talk.querySelectorAll<HTMLInputElement>(css)];
    const who = box("input[name=who]").find(({ checked }) => checked)?.value === "technician" ? "technician" : "customer";
    this.go({ who, without: box("input[name=tool]").filter(({ checked }) => !checked).map(({ value }) => value) });
  }

  private showReader(): void {
    for (const input of this.talk.querySelectorAll<HTMLInputElement>("input[name=who], input[name=tool]")) {
      input.checked = input.name === "who" ? input.value === this.told.who : !this.told.without.includes(input.value);
    }
    this.talk.dataset.who = this.told.who;
  }

  private get report(): HTMLTextAreaElement {
    return this.talk.querySelector("textarea")!;
  }

  private get heading(): HTMLElement {
    return this.talk.querySelector<HTMLElement>(".now h2")!;
  }

  private now(heading: string, ...parts: (Node | string)[]): void {
    this.heading.textContent = heading;
    Object.assign(this.heading.parentElement!.dataset, { step: this.step, finding: this.finding });
    this.step = this.finding = "";
    this.fill(".ask", ...parts);
  }

  private fill(css: string, ...parts: (Node | string)[]): void {
    this.talk.querySelector(css)!.replaceChildren(...parts);
  }

  private progress(words: string): void {
    this.talk.querySelector(".progress")!.textContent = words;
  }

  private button(words: string, act: () => void, kind = ""): HTMLElement {
    const button = make("button", kind, words) as HTMLButtonElement;
    button.type = "button";
    button.addEventListener("click", act);
    return button;
  }

  private key(name: string): HTMLElement {
    return this.talk.querySelector<HTMLElement>(`[data-do=${name}]`)!;
  }

  private on(name: string, act: (button: HTMLElement) => void): void {
    this.key(name).addEventListener("click", () => act(this.key(name)));
  }
}

function time(minutes: number): string {
  return minutes < 90 ? `${Math.max(1, Math.round(minutes))} min` : `${Math.round(minutes / 60)} h`;
}

/** A link within the page leads to a place, and is nothing that was said. */
function isPlace(fragment: string): boolean {
  return !fragment.includes("=") && document.getElementById(fragment) !== null;
}

function nexts(answer: Answer): Next[] {
  const steps = answer.out?.steps;
  return (steps?.rows ?? []).map(([name, kind, minutes, , , reason], i) => ({ name: String(name), kind: String(kind), minutes: Number(minutes), own: steps!.shown?.[i]?.[3] ?? "", reason: String(reason) }));
}

function valueForm(finding: Finding, said: string | undefined, say: (answer: string) => void): Node {
  const entry = make("input", "") as HTMLInputElement;
  // A keypad of figures has no minus, which a temperature or a voltage may need.
  Object.assign(entry, { type: "text", inputMode: /(°.|K|V|A)$/.test(finding.unit) ? "text" : "decimal", enterKeyHint: "done", maxLength: 40, autocomplete: "off", value: said === UNKNOWN ? "" : (said ?? "") });
  entry.setAttribute("aria-label", finding.ask);
  const take = make("button", "", "Take it") as HTMLButtonElement;
  const form = make("form", "value-of", entry, make("span", "unit", finding.unit), take) as HTMLFormElement;
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const typed = entry.value.trim();
    if (typed) say(withUnit(typed, finding.unit));
  });
  return form;
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

function keys(name: string, ...buttons: Node[]): HTMLElement {
  return make("div", name, ...buttons);
}

async function fetchText(address: string): Promise<string> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`The fault model is not there (${response.status}).`);
  return response.text();
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
