// Makes the calculators of a page live: every entry is computed as it is typed.
// Answers come from the same code that wrote the worked ones, see host.ts.
import { answerNodes, make, VERDICTS, waiting, type Labels } from "./answer";
import { entries, entryOf } from "./entry";
import { followEntries } from "./follow";
import { ask, load, sentence, whenIdle, type Answer } from "./host";
import { button } from "./key";
import { dress, whole } from "./whole";
import type { Show } from "./ladder";

/** What a calculator tells the page of each answer, as the event "answered" of its block. */
export interface Answered {
  id: string;
  title: string;
  given: Record<string, string>;
  told: Record<string, string>; // by the words of the page: the verdict, the results, the working
}

export function startCalculators(showOnLadder: Show): void {
  startThoseOf(document);
  document.addEventListener("brought", (event) => startThoseOf((event as CustomEvent<HTMLElement>).detail));
  followEntries(showOnLadder);
}

function startThoseOf(part: ParentNode): void {
  for (const block of part.querySelectorAll<HTMLElement>("section.calculator[data-calculator]")) new Calculator(block);
}

/** Acts when a part of the page is less than a window away. */
function whenNear(part: Element, act: () => void): void {
  const watch = new IntersectionObserver((seen) => {
    if (!seen.some(({ isIntersecting }) => isIntersecting)) return;
    watch.disconnect();
    whenIdle(act);
  }, { rootMargin: "100%" });
  watch.observe(part);
}

/** Loads ahead of need. What goes wrong here is told when somebody computes. */
function prepare(): void {
  load().catch(() => {});
}

/** Units by kind, where the reader chose some (units.ts). */
function chosenUnits(): Record<string, string> | undefined {
  return document.documentElement.dataset.units && JSON.parse(document.documentElement.dataset.units);
}

/** So long nobody types before a screen reader says the answer, in ms: one that speaks at every key says nothing. */
const PAUSE = 800;

/** What is said of an answer: its verdict, or its first result. A fault is said by the field itself. */
function spoken({ verdict, out, error }: Answer, labels: Labels): string {
  if (error) return "";
  if (verdict) return `${VERDICTS[verdict.is] ?? verdict.is}. ${verdict.text}`;
  const [name, first] = Object.entries(out ?? {})[0] ?? [];
  return name && first ? `${labels[name] ?? name}: ${first.text}` : "";
}

function toldOf({ verdict, out, working }: Answer, labels: Labels): Record<string, string> {
  const told: Record<string, string> = {};
  if (verdict) told.Verdict = `${VERDICTS[verdict.is] ?? verdict.is}. ${verdict.text}`;
  for (const [name, { text }] of Object.entries(out ?? {})) told[labels[name] ?? name] = text;
  if (working?.length) told.Working = working.join("\n");
  return told;
}

class Calculator {
  private readonly id: string;
  private readonly form: HTMLFormElement;
  private readonly answer: HTMLElement;
  private readonly labels: Labels;
  private readonly announce: HTMLElement;
  private asked = 0;
  private readonly open: Record<string, boolean> = {};

  constructor(private readonly block: HTMLElement) {
    this.id = block.dataset.calculator!;
    this.form = block.querySelector<HTMLFormElement>("form.inputs")!;
    this.answer = block.querySelector<HTMLElement>(".answer")!;
    this.announce = block.querySelector<HTMLElement>(".announce")!;
    // An entry may bring up an output that the worked example does not have, so the block names those.
    this.labels = JSON.parse(block.dataset.labels ?? "{}") as Labels;
    for (const row of block.querySelectorAll<HTMLElement>("[data-output]")) this.labels[row.dataset.output!] = row.querySelector("dt")!.innerText;
    dress(block);
    // In a guide working and tables are rooms, which an answer fills.
    this.answer.addEventListener("toggle", ({ target }) => (target as Element).querySelector("summary:only-child") && void this.compute(true), true);
    block.querySelector(".more")?.addEventListener("toggle", () => void whole(block));
    this.form.querySelector("fieldset")!.disabled = false;
    for (const touch of ["focusin", "pointerdown"]) block.addEventListener(touch, prepare, { once: true });
    this.form.addEventListener("input", () => void this.compute());
    const redraw = () => void this.compute(true);
    document.addEventListener("units", redraw);
    if (chosenUnits()) whenIdle(redraw);
    // To start takes a slow phone a while, so nothing does before a reader comes near. In a guide only the room of a plot stands.
    whenNear(block, () => (this.answer.querySelector(".plot svg:empty") ? redraw() : prepare()));
    this.form.addEventListener("click", (event) => this.overRange(event.target as Element));
    for (const field of block.querySelectorAll<HTMLElement>("[data-taps]")) this.offerLog(field);
    this.form.addEventListener("keydown", (event) => this.finish(event));
  }

  /** Logs can be taken by tap, and go in and out as files. What does it is loaded when it is asked for. */
  private offerLog(field: HTMLElement): void {
    field.querySelector(".entry")!.after(
      make(
        "div", "log-ways",
        button("Log by tap", () => void import("./log").then((part) => part.openLog(this.block, field))),
        button("Load a file", () => void import("./csv").then((part) => part.loadInto(field))),
        button("Save as a file", () => void import("./csv").then((part) => part.saveOf(field, this.id))),
      ),
    );
  }

  /** Silent: nothing was typed, the same answer is shown in other units. */
  private async compute(silent = false): Promise<void> {
    const turn = ++this.asked;
    // An old answer must not stand beside new entries, not even while the calculators load.
    if (!silent) this.show([waiting("Computing …")]);
    let answer: Answer;
    const given = entries(this.form);
    try {
      answer = await ask({ id: this.id, in: given, plot: true, units: chosenUnits() });
    } catch (cause) {
      if (silent) return;
      answer = { error: { field: "", text: sentence(cause) } };
    }
    if (turn !== this.asked || (silent && answer.error)) return;
    this.tellFault(answer.error);
    if (!answer.error) this.show(answerNodes(answer, this.labels));
    if (silent) return;
    if (!answer.error) {
      const title = (this.block.ariaLabel ?? "").replace(/^.*?: /, "");
      const detail: Answered = { id: this.id, title, given, told: toldOf(answer, this.labels) };
      this.block.dispatchEvent(new CustomEvent("answered", { bubbles: true, detail }));
    }
    setTimeout(() => {
      if (turn === this.asked) this.announce.textContent = spoken(answer, this.labels);
    }, PAUSE);
  }

  /** The working, and the table behind a plot. */
  private folds(): NodeListOf<HTMLDetailsElement> {
    return this.answer.querySelectorAll("details");
  }

  private show(nodes: Node[]): void {
    for (const { className, open } of this.folds()) this.open[className] = open;
    this.answer.replaceChildren(...nodes);
    for (const fold of this.folds()) fold.open = this.open[fold.className] ?? false;
  }

  /** Puts the sentence beside the field it is about; what concerns no field stands in place of the answer. */
  private tellFault(error: Answer["error"]): void {
    let placed = false;
    for (const field of this.form.querySelectorAll<HTMLElement>("[data-input]")) {
      const faulty = field.dataset.input === error?.field;
      const fault = field.querySelector<HTMLElement>(".fault");
      const entry = entryOf(field);
      if (fault) {
        fault.textContent = faulty ? error!.text : "";
        fault.hidden = !faulty;
      }
      const folded = field.closest("details");
      if (faulty && folded) folded.open = true;
      if (faulty) entry?.setAttribute("aria-invalid", "true");
      else entry?.removeAttribute("aria-invalid");
      placed ||= faulty && fault !== null;
    }
    if (error) this.show([waiting(placed ? "No answer yet: one entry needs a look." : error.text)]);
  }

  /** The key for what a meter shows when a reading is beyond its range. */
  private overRange(target: Element): void {
    const field = target.closest("[data-over]")?.closest<HTMLElement>("[data-input]");
    const entry = field && entryOf(field);
    if (!entry) return;
    entry.value = "OL";
    void this.compute();
  }

  /** "Done" on a phone's keyboard puts it away, so that the answer is seen; nothing is sent anywhere. */
  private finish(event: KeyboardEvent): void {
    if (event.key !== "Enter" || !(event.target instanceof HTMLInputElement)) return;
    event.preventDefault();
    event.target.blur();
  }
}
