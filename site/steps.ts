// Keeps what is done in a procedure: ticks with their time, notes, and what its calculators were given and said. All of it
// belongs to the job in hand; taking back and clearing are entries of it too, see work.ts.
import { canStayAwake, letSleep, onAwake, stayAwake } from "./awake";
import { make } from "./answer";
import { openBranches } from "./branch";
import type { Answered } from "./calculator";
import { clock } from "./clock";
import { entries } from "./entry";
import { asking, button } from "./key";
import { pageOf } from "./place";
import { refill } from "./refill";
import { lastDone, standing } from "./standing";
import look from "./steps.css";
import { Strip } from "./strip";
import { wear } from "./wear";
import { add, current, entriesOf, onChange, type Entry } from "./work";

await wear(look);

/** So long a note or an entry rests before it is kept, in ms; leaving the field or the page keeps it at once. */
const REST = 300;

/** So much of a step's text stands in the record, in characters. */
const WORDS = 160;

const root = document.documentElement.dataset.root || "./";

/** calculators: done when those of the page can be given entries. */
export function startSteps(main: HTMLElement, calculators?: Promise<void>): void {
  const guide = new Guide(main, pageOf(location.pathname));
  const strip = new Strip(root, () => void guide.undo(), () => guide.goOn());
  guide.addEnd();
  openBranches(main, (part, page) => new Guide(part, page).follow());
  void Promise.resolve(calculators).then(() => guide.follow((entries, next, all) => strip.show(entries, next, all)));
  addEventListener("pagehide", letSleep);
}

interface Step {
  place: string;
  row: HTMLElement;
  box: HTMLInputElement;
  when: HTMLElement;
  note: HTMLTextAreaElement;
  key: HTMLButtonElement;
}

function unfold({ note, key }: Pick<Step, "note" | "key">, open: boolean): void {
  note.hidden = !open;
  key.setAttribute("aria-expanded", String(open));
}

/** One guide on the page: the page's own, or one that was opened in place at an 'if not'. */
class Guide {
  private readonly steps: Step[];
  private refilled = false;
  private kept = new Map<string, string>(); // by calculator, the entries that were kept last, as JSON
  private readonly writing: string[] = []; // places at which something is on its way to the store
  private pending = new Map<string, () => void>();

  constructor(
    private readonly part: HTMLElement,
    private readonly page: string,
  ) {
    this.steps = [...part.querySelectorAll<HTMLElement>("ol.steps > .step")].filter((row) => row.closest(".branch, main") === part).map((row) => this.step(row));
    part.addEventListener("answered", (event) => this.answered(event as CustomEvent<Answered>));
    const keepAll = () => this.pending.forEach((keep) => keep());
    addEventListener("pagehide", keepAll);
    document.addEventListener("visibilitychange", keepAll);
  }

  private step(row: HTMLElement): Step {
    const place = row.dataset.place ?? row.id;
    const box = row.querySelector<HTMLInputElement>(":scope > .tick input")!;
    const note = document.createElement("textarea");
    note.rows = 2;
    note.setAttribute("aria-label", `Note at ${place.replace("-", " ")}`);
    const key = button("Note", () => {
      unfold({ note, key }, note.hidden);
      if (!note.hidden) note.focus();
    });
    unfold({ note, key }, false);
    const when = make("span", "when");
    row.append(make("div", "kept", key, when, note));
    const text = row.querySelector(".action")?.textContent?.trim().slice(0, WORDS);
    box.addEventListener("change", () => void this.write({ place, is: box.checked ? "tick" : "untick", text }));
    const keep = () => void this.write({ place, is: "note", text: note.value });
    note.addEventListener("input", () => this.soon("note " + place, keep));
    note.addEventListener("change", () => this.pending.get("note " + place)?.());
    return { place, row, box, when, note, key };
  }

  /** Keeps what rests for a while; what comes after it takes its place. */
  private soon(name: string, keep: () => void): void {
    const once = () => {
      if (this.pending.get(name) !== once) return;
      this.pending.delete(name);
      keep();
    };
    this.pending.set(name, once);
    setTimeout(once, REST);
  }

  private async write(what: Pick<Entry, "place" | "is"> & Partial<Entry>): Promise<void> {
    stayAwake();
    this.writing.push(what.place);
    await this.named();
    await add({ ...what, page: this.page }, () => this.writing.splice(this.writing.indexOf(what.place), 1));
  }

  /** The first thing that is kept of a page says which guide it was, and in which revision. */
  private naming: Promise<unknown> | undefined;
  private async named(): Promise<void> {
    const title = this.part.querySelector("h1, .branch-title")?.textContent ?? "";
    const revision = this.part.querySelector(".foot")?.textContent?.match(/revision [^·]*/)?.[0].trim() ?? "";
    const edition = document.documentElement.dataset.edition ?? "";
    const told: Record<string, string> = { revision, edition };
    this.naming ??= this.entries().then((all) => {
      const there = all.some((entry) => entry.is === "guide" && entry.page === this.page && entry.told?.edition === edition);
      return there ? undefined : add({ page: this.page, place: "", is: "guide", text: title, told });
    });
    await this.naming;
  }

  private async entries(): Promise<Entry[]> {
    const job = await current();
    if (!job) this.naming = undefined;
    return job ? entriesOf(job.id) : [];
  }

  private answered({ target, detail }: CustomEvent<Answered>): void {
    const block = target as HTMLElement;
    if (block.closest(".branch, main") !== this.part) return;
    const place = block.dataset.place ?? block.id;
    const given = JSON.stringify(detail.given);
    if (!this.refilled || this.kept.get(place) === given || "sent" in block.dataset) return; // nobody has entered it: it is the page's own, from before or from an address
    this.kept.set(place, given);
    const { id, title, told } = detail;
    this.soon(place, () => void this.write({ place, is: "result", id, text: title, given: detail.given, told }));
  }

  /** Shows what is kept, now and at every change, also one that another tab makes. */
  follow(told: (entries: Entry[], next: number, all: number) => void = () => {}): void {
    let asked = 0;
    const show = async () => {
      if (!this.part.isConnected) return leave(); // a branch that was closed
      const turn = ++asked;
      const all = await this.entries();
      if (turn !== asked) return;
      const here = standing(all).filter((entry) => entry.page === this.page);
      this.show(here);
      told(all, this.next(), this.steps.length);
    };
    const leave = onChange(() => void show());
    void show();
  }

  private show(entries: Entry[]): void {
    for (const step of this.steps) {
      const own = entries.filter(({ place }) => place === step.place);
      if (this.writing.includes(step.place)) continue; // what stands there is newer than what is kept
      const tick = own.findLast(({ is }) => is === "tick" || is === "untick");
      step.box.checked = tick?.is === "tick";
      step.when.textContent = tick?.is === "tick" ? `Done ${clock(tick.at)}` : "";
      const note = own.findLast(({ is }) => is === "note")?.text ?? "";
      if (document.activeElement !== step.note) step.note.value = note;
      if (note) unfold(step, true);
    }
    if (!this.refilled) for (const block of this.blocks()) this.refill(block, entries);
    this.refilled = true;
    if (this.steps.length && this.steps.every(({ box }) => box.checked)) letSleep();
  }

  private blocks(): HTMLElement[] {
    return [...this.part.querySelectorAll<HTMLElement>("section.calculator:not([data-sent])")].filter((block) => block.closest(".branch, main") === this.part);
  }

  private refill(block: HTMLElement, all: Entry[]): void {
    const place = block.dataset.place ?? block.id;
    const last = all.findLast((entry) => entry.is === "result" && entry.place === place && entry.id === block.dataset.calculator);
    if (!last?.given) return void this.kept.set(place, JSON.stringify(entries(block.querySelector("form")!)));
    this.kept.set(place, JSON.stringify(last.given));
    refill(block, last.given);
  }

  /** The first step after the last one that is ticked; -1 where none is ticked or all are done. */
  private next(): number {
    const last = this.steps.findLastIndex(({ box }) => box.checked);
    return last < 0 || last === this.steps.length - 1 ? -1 : last + 1;
  }

  goOn(): void {
    stayAwake();
    const step = this.steps[this.next()];
    step?.row.scrollIntoView();
    step?.box.focus({ preventScroll: true });
  }

  async undo(): Promise<void> {
    const last = lastDone(await this.entries(), this.page);
    if (last) await add({ page: this.page, place: last.place, is: "undo", of: last.key });
  }

  /** At the end of the steps: to begin anew. It asks first, and can be taken back. */
  addEnd(): void {
    const list = this.part.querySelector("ol.steps");
    if (!list) return;
    const clear = () => void add({ page: this.page, place: "", is: "clear" });
    const keys = asking("Clear ticks and notes", "Clear all ticks, notes and readings of this page?", "Clear", clear);
    keys.classList.add("work-end");
    list.after(keys);
    if (canStayAwake) keys.before(make("p", "work-end", screenKey()));
  }
}

function screenKey(): HTMLButtonElement {
  const key = button("", () => (key.ariaPressed === "true" ? letSleep() : stayAwake()));
  onAwake((awake) => {
    key.ariaPressed = String(awake);
    key.textContent = awake ? "Screen stays on" : "Keep the screen on";
  });
  return key;
}
