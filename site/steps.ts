// Keeps what is done in a guide: ticks with their time, notes, and what its calculators were given and said. All of it belongs
// to the job in hand; taking back and clearing are entries of it too, see work.ts.
import { canStayAwake, letSleep, onAwake, stayAwake } from "./awake";
import { openBranches } from "./branch";
import type { Answered } from "./calculator";
import { clock } from "./clock";
import { entries } from "./entry";
import { fetchText } from "./fetched";
import { follow as followKeys } from "./key";
import { own, placeOf, root } from "./place";
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
  const follow = keepGuide(main, thisPage);
  openBranches(main, (part, page) => keepGuide(part, page)());
  const end = main.querySelector<HTMLElement>(".work-end");
  if (end) startEnd(end);
  void Promise.resolve(calculators).then(follow);
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
  followKeys(end, { clear: () => add({ page: thisPage, place: "", is: "clear" }) });
}

/** By calculator, as the build publishes them. Where there is no network and no kept copy, the working must do. */
const formulas = new Map<string, string>();

async function learn(id: string): Promise<void> {
  const text = formulas.get(id) ?? (await fetchText(`${root}calculators/${id}/formula.txt`).catch(() => ""));
  if (text) formulas.set(id, text.trim());
}

/** Keeps what is done in one guide on the page: the page's own, or one that was opened in place at an 'if not'. Gives what shows what is kept. */
function keepGuide(part: HTMLElement, page: string): () => void {
  const kept = new Map<string, string>(); // by calculator, the entries that were kept last, as JSON
  const asked = new Set<string>(); // calculators whose next answer belongs into the record
  const writing: string[] = []; // places at which something is on its way to the store
  const pending = new Map<string, () => void>();
  let refilled = false;

  /** Keeps what rests for a while; what comes after it takes its place. */
  function soon(name: string, keep: () => void): void {
    const once = () => {
      if (pending.get(name) !== once) return;
      pending.delete(name);
      keep();
    };
    pending.set(name, once);
    setTimeout(once, REST);
  }

  function write(what: Omit<New, "page">): void {
    stayAwake();
    writing.push(what.place);
    void add({ ...what, page }, () => writing.splice(writing.indexOf(what.place), 1));
  }

  /** Makes a step keep its tick and its note; gives what shows those that are kept. */
  function step(row: HTMLElement): (all: Entry[]) => boolean {
    const place = placeOf(row);
    const find = <Kind extends HTMLElement>(css: string) => row.querySelector<Kind>(":scope > " + css)!;
    row.append(document.querySelector<HTMLTemplateElement>("#kept")!.content.cloneNode(true));
    const box = find<HTMLInputElement>(".tick input");
    const key = find(".kept button");
    const note = find<HTMLTextAreaElement>(".kept textarea");
    const text = row.querySelector(".action")?.textContent?.trim().slice(0, WORDS);
    const keep = () => write({ place, is: "note", text: note.value });
    const unfold = (open: boolean) => {
      note.hidden = !open;
      key.ariaExpanded = String(open);
    };
    note.ariaLabel = `Note at ${place.replace("-", " ")}`;
    key.addEventListener("click", () => {
      unfold(note.hidden);
      if (!note.hidden) note.focus();
    });
    box.addEventListener("change", () => write({ place, is: box.checked ? "tick" : "untick", text }));
    note.addEventListener("input", () => soon("note " + place, keep));
    note.addEventListener("change", () => pending.get("note " + place)?.());
    return (all) => {
      if (writing.includes(place)) return box.checked; // what stands there is newer than what is kept
      const here = all.filter((entry) => entry.place === place);
      const tick = here.findLast(({ is }) => is === "tick" || is === "untick");
      box.checked = tick?.is === "tick";
      find(".kept .when").textContent = box.checked ? `Done ${clock(tick!.at)}` : "";
      const said = here.findLast(({ is }) => is === "note")?.text ?? "";
      if (document.activeElement !== note) note.value = said;
      if (said) unfold(true);
      return box.checked;
    };
  }

  /** A result is kept with the formula that gave it; on a calculator's own page many only try something: there a result is kept when the reader says so. */
  function offer(block: HTMLElement): void {
    block.addEventListener("focusin", () => void learn(block.dataset.calculator!), { once: true });
    const key = block.querySelector<HTMLButtonElement>(".keep button");
    if (!key) return;
    key.disabled = false;
    const form = block.querySelector("form")!;
    const label = key.textContent;
    key.addEventListener("click", () => {
      asked.add(placeOf(block));
      kept.delete(placeOf(block));
      form.dispatchEvent(new Event("input"));
    });
    form.addEventListener("input", ({ isTrusted }) => isTrusted && (key.textContent = label));
  }

  function answered(block: HTMLElement, { id, title, given, told }: Answered): void {
    const place = placeOf(block);
    const now = JSON.stringify(given);
    // What nobody has entered is the page's own, from before or from an address.
    if (block.closest(".branch, main") !== part || !refilled || kept.get(place) === now || "sent" in block.dataset) return;
    const key = block.querySelector(".keep button");
    if (key && !asked.delete(place) && !document.querySelector("dialog.log")) return;
    if (key) key.textContent = "Kept " + clock(Date.now());
    kept.set(place, now);
    void learn(id);
    soon(place, () => write({ place, is: "result", id, text: title, given, told: { ...told, Formula: formulas.get(id) ?? "" } }));
  }

  function fill(block: HTMLElement, all: Entry[]): void {
    const place = placeOf(block);
    const given = all.findLast((entry) => entry.is === "result" && entry.place === place && entry.id === block.dataset.calculator)?.given;
    kept.set(place, JSON.stringify(given ?? entries(block.querySelector("form")!)));
    if (given) void refill(block, given);
  }

  const steps = own(part, ".step").map(step);
  own(part, "section.calculator").forEach(offer);
  part.addEventListener("answered", (event) => answered(event.target as HTMLElement, (event as CustomEvent<Answered>).detail));
  const keepAll = () => pending.forEach((keep) => keep());
  addEventListener("pagehide", keepAll);
  document.addEventListener("visibilitychange", keepAll);
  return () => {
    const leave = watch((_, every) => {
      if (!part.isConnected) return leave(); // a branch that was closed
      const all = standing(every).filter((entry) => entry.page === page);
      const done = steps.filter((show) => show(all));
      if (!refilled) for (const block of own(part, "section.calculator:not([data-sent])")) fill(block, all);
      refilled = true;
      if (steps.length && done.length === steps.length) letSleep();
    });
  };
}
