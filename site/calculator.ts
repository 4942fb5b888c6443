// Makes the calculators of a page live: every entry is computed as it is typed.
// Answers come from the same code that wrote the worked ones, see host.ts.
import { answerNodes, VERDICTS, waiting, type Labels } from "./answer";
import { entries, entryOf } from "./entry";
import { followEntries } from "./follow";
import { ask, load, sentence, type Answer } from "./host";
import type { Show } from "./ladder";

export function startCalculators(showOnLadder: Show): void {
  const blocks = document.querySelectorAll<HTMLElement>("section.calculator[data-calculator]");
  for (const block of blocks) new Calculator(block);
  followEntries(showOnLadder);
  whenIdle(prepare);
}

/** Loads ahead of need. What goes wrong here is told when somebody computes. */
function prepare(): void {
  load().catch(() => {});
}

function whenIdle(act: () => void): void {
  const idle = () => ("requestIdleCallback" in window ? requestIdleCallback(act) : setTimeout(act));
  if (document.readyState === "complete") idle();
  else addEventListener("load", idle, { once: true });
}

/** The units of a plot's axes, where the reader chose some (units.ts); true leaves them as written. */
function axes(): true | Record<string, string> {
  return JSON.parse(document.documentElement.dataset.axes ?? "true") as true | Record<string, string>;
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

class Calculator {
  private readonly id: string;
  private readonly form: HTMLFormElement;
  private readonly answer: HTMLElement;
  private readonly labels: Labels;
  private readonly announce: HTMLElement;
  private asked = 0;
  private readonly open: Record<string, boolean> = {};

  constructor(block: HTMLElement) {
    this.id = block.dataset.calculator!;
    this.form = block.querySelector<HTMLFormElement>("form.inputs")!;
    this.answer = block.querySelector<HTMLElement>(".answer")!;
    this.announce = block.querySelector<HTMLElement>(".announce")!;
    // An entry may bring up an output that the worked example does not have, so the block names them all.
    this.labels = JSON.parse(block.dataset.labels ?? "{}") as Labels;
    this.form.querySelector("fieldset")!.disabled = false;
    for (const touch of ["focusin", "pointerdown"]) block.addEventListener(touch, prepare, { once: true });
    this.form.addEventListener("input", () => void this.compute());
    const redraw = () => this.answer.querySelector(".plot") && void this.compute(true);
    document.addEventListener("axes", redraw);
    // In a guide only the room of a plot stands: what is read first need not wait for it.
    if (axes() !== true || this.answer.querySelector(".plot svg:empty")) whenIdle(redraw);
    this.form.addEventListener("click", (event) => this.overRange(event.target as Element));
    this.form.addEventListener("keydown", (event) => this.finish(event));
  }

  /** Silent: nothing was typed, the same answer is shown in other units. */
  private async compute(silent = false): Promise<void> {
    const turn = ++this.asked;
    // An old answer must not stand beside new entries, not even while the calculators load.
    if (!silent) this.show([waiting("Computing …")]);
    let answer: Answer;
    try {
      answer = await ask({ id: this.id, in: entries(this.form), plot: axes() });
    } catch (cause) {
      if (silent) return;
      answer = { error: { field: "", text: sentence(cause) } };
    }
    if (turn !== this.asked || (silent && answer.error)) return;
    this.tellFault(answer.error);
    if (!answer.error) this.show(answerNodes(answer, this.labels));
    if (silent) return;
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
