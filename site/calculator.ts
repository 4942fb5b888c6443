// Makes the calculators of a page live: every entry is computed as it is typed.
// Answers come from the same code that wrote the worked ones, see host.ts.
import { must, read, write } from "./address";
import { answerNodes, make, plotted, VERDICTS, waiting, type Labels } from "./answer";
import { entries, entryOf } from "./entry";
import { followEntries } from "./follow";
import { ask, load, sentence, whenIdle, type Answer } from "./host";
import { button, LONGEST } from "./key";
import type { Show } from "./ladder";
import { refill } from "./refill";
import { dress, whole } from "./whole";

/** What a calculator tells the page of each answer, as the event "answered" of its block. */
export interface Answered {
  id: string;
  title: string;
  given: Record<string, string>;
  told: Record<string, string>; // by the words of the page: the verdict, the results, the working
}

/** Done when what stands in the address is filled in, or refused: it comes before what the phone itself has kept. */
export function startCalculators(showOnLadder: Show): Promise<void> {
  startThoseOf(document);
  document.addEventListener("brought", (event) => startThoseOf((event as CustomEvent<HTMLElement>).detail));
  addEventListener("hashchange", () => void receive());
  followEntries(showOnLadder);
  whenIdle(prepare);
  return receive();
}

/** Fills in what stands in the address, all of it or nothing; whether the entries are any, the calculator says. */
async function receive(): Promise<void> {
  let block = document.querySelector<HTMLElement>("section.calculator")!;
  try {
    const sent = read(location.hash);
    if (!sent) return;
    const { place, id, given } = sent;
    const named = document.getElementById(place);
    must(named?.dataset.calculator === id && Object.keys(given).every((name) => named.querySelector(`[data-input="${name}"]`)));
    block = named;
    const { error } = await ask({ id, in: given });
    if (error) throw new Error(`None of the entries in the address was used: ${error.text}`);
    block.dataset.sent = ""; // not the reader's own, nor the reader's machine's
    refill(block, given);
    tellSent(block, "Filled in from the address.");
  } catch (cause) {
    tellSent(block, sentence(cause));
  }
  block.scrollIntoView();
}

function tellSent(block: HTMLElement, text: string): void {
  const line = block.querySelector(".sent") ?? make("p", "sent");
  line.role = "status";
  block.querySelector("form")!.before(line);
  line.textContent = text;
}

function startThoseOf(part: ParentNode): void {
  for (const block of part.querySelectorAll<HTMLElement>("section.calculator[data-calculator]")) new Calculator(block);
}

/** Loads ahead of need. What goes wrong here is told when somebody computes. */
function prepare(): void {
  load().catch(() => {});
}

/** Units by kind, where the reader chose some (units.ts). */
function chosenUnits(): Record<string, string> | undefined {
  return document.documentElement.dataset.units && JSON.parse(document.documentElement.dataset.units);
}

/** So long nobody types before a screen reader says the answer, in ms: one that speaks at every key says nothing. The address waits as well. */
const PAUSE = 800;

/** What is said of an answer: its verdict, its first result, or what is wrong. */
function spoken({ verdict, out, error }: Answer, labels: Labels): string {
  if (error) return error.text;
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
  private readonly hand: HTMLButtonElement;
  private own = false; // the reader has typed
  private readonly draws: boolean;
  private asked = 0;
  private readonly open: Record<string, boolean> = {};

  constructor(private readonly block: HTMLElement) {
    this.id = block.dataset.calculator!;
    this.form = block.querySelector<HTMLFormElement>("form.inputs")!;
    this.answer = block.querySelector<HTMLElement>(".answer")!;
    this.draws = this.answer.querySelector(".plot") !== null;
    this.announce = block.querySelector<HTMLElement>(".announce")!;
    this.hand = block.querySelector<HTMLButtonElement>("button.hand")!;
    this.hand.dataset.address = this.address();
    // An entry may bring up an output that the worked example does not have, so the block names those.
    this.labels = JSON.parse(block.dataset.labels ?? "{}") as Labels;
    for (const row of block.querySelectorAll<HTMLElement>("[data-output]")) this.labels[row.dataset.output!] = row.querySelector("dt")!.innerText;
    dress(block);
    // In a guide working and tables are rooms, which an answer fills.
    this.answer.addEventListener("toggle", ({ target }) => (target as Element).querySelector("summary:only-child") && void this.compute(true), true);
    block.querySelector(".more")?.addEventListener("toggle", () => void whole(block));
    this.form.querySelector("fieldset")!.disabled = false;
    for (const touch of ["focusin", "pointerdown"]) block.addEventListener(touch, prepare, { once: true });
    this.form.addEventListener("input", ({ target }) => {
      if (target !== this.form) this.own = true; // what fills in a form tells the form
      if (this.own) delete block.dataset.sent;
      void this.compute();
    });
    const redraw = () => void this.compute(true);
    document.addEventListener("units", redraw);
    // In a guide only the room of a plot stands: what is read first need not wait for it.
    if (chosenUnits() || this.answer.querySelector(".plot svg:empty")) whenIdle(redraw);
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

  /** The address of what stands here, also in a guide that was opened in place; none where it would be cut on its way. */
  private address(): string {
    const { id, dataset } = this.block;
    const page = this.block.closest<HTMLElement>(".branch")?.dataset.page;
    const url = new URL(page ? document.documentElement.dataset.root + page : location.pathname, location.href);
    url.hash = write({ place: dataset.place ?? id, id: this.id, given: entries(this.form) });
    return url.href.length > LONGEST ? "" : url.href;
  }

  /** The address bar follows the reader on the calculator's own page, and where it speaks of this one already. It makes no entry of the history. */
  private follow(): void {
    const { address = "" } = this.hand.dataset;
    if (this.own && (this.block.closest(".reference") || location.hash.startsWith(`#${this.block.id}/`))) {
      history.replaceState(history.state, "", address || location.pathname);
    }
  }

  /** Silent: nothing was typed, the same answer is shown in other units. */
  private async compute(silent = false): Promise<void> {
    const turn = ++this.asked;
    // An old answer must not stand beside new entries, not even while the calculators load.
    const room = this.draws ? (this.answer.querySelector(".plot") ?? make("figure", "plot")) : undefined;
    if (!silent) this.show([waiting("Computing …")]);
    let answer: Answer;
    const given = entries(this.form);
    try {
      answer = await ask({ id: this.id, in: given, ...(silent && { plot: true }), units: chosenUnits() });
    } catch (cause) {
      if (silent) return;
      answer = { error: { field: "", text: sentence(cause) } };
    }
    if (turn !== this.asked || (silent && answer.error)) return;
    this.tellFault(answer.error);
    this.hand.disabled = !!answer.error;
    this.hand.dataset.address = this.address();
    if (!answer.error) this.show(answerNodes(answer, this.labels, room));
    if (silent) return;
    if (room && !answer.error) whenIdle(() => void this.draw(turn, given, room));
    if (!answer.error) {
      const title = (this.block.ariaLabel ?? "").replace(/^.*?: /, "");
      const detail: Answered = { id: this.id, title, given, told: toldOf(answer, this.labels) };
      this.block.dispatchEvent(new CustomEvent("answered", { bubbles: true, detail }));
    }
    setTimeout(() => {
      if (turn !== this.asked) return;
      this.announce.textContent = spoken(answer, this.labels);
      if (!answer.error) this.follow();
    }, PAUSE);
  }

  /** The picture follows when nothing else is to be done: who types waits for the answer alone. Until then the last one stands, dimmed. */
  private async draw(turn: number, given: Record<string, string>, room: Element): Promise<void> {
    if (turn !== this.asked) return;
    const { plot } = await ask({ id: this.id, in: given, plot: true, units: chosenUnits() });
    if (turn !== this.asked) return;
    const figure = plot && plotted(plot);
    const [was, is] = [room, figure].map((part) => part?.querySelector("details"));
    if (was && is) is.open = was.open;
    room.replaceWith(...(figure ? [figure] : []));
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
      if (entry) entry.ariaInvalid = faulty ? "true" : null;
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
    entry.dispatchEvent(new Event("input", { bubbles: true }));
  }

  /** "Done" on a phone's keyboard puts it away, so that the answer is seen; nothing is sent anywhere. */
  private finish(event: KeyboardEvent): void {
    if (event.key !== "Enter" || !(event.target instanceof HTMLInputElement)) return;
    event.preventDefault();
    event.target.blur();
  }
}
