// Keeps what is done in a guide: ticks with their time, notes, and what its calculators were given and said. All of it belongs
// to the job in hand; taking back and clearing are entries of it too, see work.ts.
import { canStayAwake, letSleep, onAwake, stayAwake } from "./awake";
import { openBranches } from "./branch";
import type { Answered } from "./calculator";
import { clock } from "./clock";
import { entries } from "./entry";
import { follow } from "./key";
import { own, root } from "./place";
import { refill } from "./refill";
import { standing } from "./standing";
import look from "./steps.css";
import { wear } from "./wear";
import { add, thisPage, watch, type Entry, type New } from "./work";

/** So long a note or an entry rests before it is kept, in ms; leaving the field or the page keeps it at once. */
const REST = 300;

/** So much of a step's text stands in the record, in characters. */
const WORDS = 160;

/** calculators: done when those of the page can be given entries. */
export async function startSteps(main: HTMLElement, calculators?: Promise<void>): Promise<void> {
  await wear(look);
  const guide = new Guide(main, thisPage);
  openBranches(main, (part, page) => new Guide(part, page).follow());
  const end = main.querySelector<HTMLElement>(".work-end");
  if (end) startEnd(end);
  void Promise.resolve(calculators).then(() => guide.follow());
  addEventListener("pagehide", letSleep);
}

/** Below the steps: to begin anew, which can be taken back, and the screen. */
function startEnd(end: HTMLElement): void {
  const screen = end.querySelector<HTMLElement>(".awake")!;
  end.hidden = false;
  screen.hidden = !canStayAwake;
  screen.addEventListener("click", () => (screen.ariaPressed === "true" ? letSleep() : stayAwake()));
  onAwake((awake) => {
    screen.ariaPressed = String(awake);
    screen.textContent = awake ? "Screen stays on" : "Keep the screen on";
  });
  follow(end, { clear: () => add({ page: thisPage, place: "", is: "clear" }) });
}

/** By calculator, as the build publishes them. Where there is no network and no kept copy, the working must do. */
const formulas = new Map<string, string>();

async function learn(id: string): Promise<void> {
  const response = formulas.has(id) ? undefined : await fetch(`${root}calculators/${id}/formula.txt`).catch(() => undefined);
  if (response?.ok) formulas.set(id, (await response.text()).trim());
}

interface Step {
  place: string;
  box: HTMLInputElement;
  when: HTMLElement;
  note: HTMLTextAreaElement;
  key: HTMLElement;
}

function unfold({ note, key }: Pick<Step, "note" | "key">, open: boolean): void {
  note.hidden = !open;
  key.ariaExpanded = String(open);
}

function placeOf(part: HTMLElement): string {
  return part.dataset.place ?? part.id;
}

/** One guide on the page: the page's own, or one that was opened in place at an 'if not'. */
class Guide {
  private readonly steps: Step[];
  private refilled = false;
  private readonly kept = new Map<string, string>(); // by calculator, the entries that were kept last, as JSON
  private readonly asked = new Set<string>(); // calculators whose next answer belongs into the record
  private readonly writing: string[] = []; // places at which something is on its way to the store
  private readonly pending = new Map<string, () => void>();

  constructor(
    private readonly part: HTMLElement,
    private readonly page: string,
  ) {
    this.steps = own(part, ".step").map((row) => this.step(row));
    part.addEventListener("answered", (event) => this.answered(event as CustomEvent<Answered>));
    for (const block of own(part, "section.calculator")) this.offer(block);
    const keepAll = () => this.pending.forEach((keep) => keep());
    addEventListener("pagehide", keepAll);
    document.addEventListener("visibilitychange", keepAll);
  }

  private step(row: HTMLElement): Step {
    const place = placeOf(row);
    const line = document.querySelector<HTMLTemplateElement>("#kept")!.content.cloneNode(true) as DocumentFragment;
    const find = <Kind extends HTMLElement>(css: string) => line.querySelector<Kind>(css)!;
    const box = row.querySelector<HTMLInputElement>(":scope > .tick input")!;
    const step = { place, box, when: find(".when"), note: find<HTMLTextAreaElement>("textarea"), key: find("button") };
    const { note, key } = step;
    note.ariaLabel = `Note at ${place.replace("-", " ")}`;
    key.addEventListener("click", () => {
      unfold(step, note.hidden);
      if (!note.hidden) note.focus();
    });
    row.append(line);
    const text = row.querySelector(".action")?.textContent?.trim().slice(0, WORDS);
    box.addEventListener("change", () => void this.write({ place, is: box.checked ? "tick" : "untick", text }));
    const keep = () => void this.write({ place, is: "note", text: note.value });
    note.addEventListener("input", () => this.soon("note " + place, keep));
    note.addEventListener("change", () => this.pending.get("note " + place)?.());
    return step;
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

  private async write(what: Omit<New, "page">): Promise<void> {
    stayAwake();
    this.writing.push(what.place);
    await add({ ...what, page: this.page }, () => this.writing.splice(this.writing.indexOf(what.place), 1));
  }

  /** A result is kept with the formula that gave it; on a calculator's own page many only try something: there a result is kept when the reader says so. */
  private offer(block: HTMLElement): void {
    block.addEventListener("focusin", () => void learn(block.dataset.calculator!), { once: true });
    const key = block.querySelector<HTMLButtonElement>(".keep button");
    if (!key) return;
    key.disabled = false;
    const form = block.querySelector("form")!;
    const label = key.textContent;
    key.addEventListener("click", () => {
      this.asked.add(placeOf(block));
      this.kept.delete(placeOf(block));
      form.dispatchEvent(new Event("input"));
    });
    form.addEventListener("input", ({ isTrusted }) => isTrusted && (key.textContent = label));
  }

  private answered({ target, detail }: CustomEvent<Answered>): void {
    const block = target as HTMLElement;
    if (block.closest(".branch, main") !== this.part) return;
    const place = placeOf(block);
    const given = JSON.stringify(detail.given);
    if (!this.refilled || this.kept.get(place) === given || "sent" in block.dataset) return; // nobody has entered it: it is the page's own, from before or from an address
    const key = block.querySelector(".keep button");
    if (key && !this.asked.delete(place) && !document.querySelector("dialog.log")) return;
    if (key) key.textContent = "Kept " + clock(Date.now());
    this.kept.set(place, given);
    const { id, title, told } = detail;
    void learn(id);
    this.soon(place, () => void this.write({ place, is: "result", id, text: title, given: detail.given, told: { ...told, Formula: formulas.get(id) ?? "" } }));
  }

  /** Shows what is kept, now and at every change, also one that another tab makes. */
  follow(): void {
    const leave = watch((_, all) => {
      if (!this.part.isConnected) leave(); // a branch that was closed
      else this.show(standing(all).filter((entry) => entry.page === this.page));
    });
  }

  private show(all: Entry[]): void {
    for (const step of this.steps) {
      const { place, box, when, note } = step;
      if (this.writing.includes(place)) continue; // what stands there is newer than what is kept
      const here = all.filter((entry) => entry.place === place);
      const tick = here.findLast(({ is }) => is === "tick" || is === "untick");
      box.checked = tick?.is === "tick";
      when.textContent = box.checked ? `Done ${clock(tick!.at)}` : "";
      const said = here.findLast(({ is }) => is === "note")?.text ?? "";
      if (document.activeElement !== note) note.value = said;
      if (said) unfold(step, true);
    }
    if (!this.refilled) for (const block of own(this.part, "section.calculator:not([data-sent])")) this.refill(block, all);
    this.refilled = true;
    if (this.steps.length && this.steps.every(({ box }) => box.checked)) letSleep();
  }

  private refill(block: HTMLElement, all: Entry[]): void {
    const place = placeOf(block);
    const last = all.findLast((entry) => entry.is === "result" && entry.place === place && entry.id === block.dataset.calculator);
    this.kept.set(place, JSON.stringify(last?.given ?? entries(block.querySelector("form")!)));
    if (last?.given) refill(block, last.given);
  }
}
