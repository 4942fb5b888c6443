// What stands of a job after all that was taken back, changed and cleared, and where its work goes on.
import type { Entry } from "./work";

/** The keys of what was taken back. From the end: a later undoing decides about an earlier one too. */
function takenBack(all: Entry[]): Set<number | undefined> {
  const gone = new Set<number | undefined>();
  for (const entry of all.slice().reverse()) if (entry.is === "undo" && !gone.has(entry.key)) gone.add(entry.of);
  return gone;
}

/** Entries that count, in the order of writing; an edited reading stands where it was first written, with its new figures. */
export function standing(all: Entry[]): Entry[] {
  const gone = takenBack(all);
  const cleared: Entry[] = all.filter((entry) => entry.is === "clear" && !gone.has(entry.key));
  const edits = new Map<number, Entry>();
  for (const entry of all) if (entry.is === "edit" && entry.of !== undefined && !gone.has(entry.key)) edits.set(entry.of, entry);
  return all
    .filter((entry) => !["undo", "edit", "clear"].includes(entry.is) && !gone.has(entry.key))
    .filter((entry) => !cleared.some((clear) => covers(clear, entry)))
    .map((entry) => ({ ...entry, given: edits.get(entry.key)?.given ?? entry.given }));
}

/** A clearing is of one place of a page, or of all of it, up to the moment at which it was asked for. */
function covers(clear: Entry, entry: Entry): boolean {
  return entry.is !== "guide" && entry.page === clear.page && (clear.place === "" || entry.place === clear.place) && entry.key < clear.key;
}

/** What an undo would take back: the last thing done that still stands, a clearing included. */
export function lastDone(all: Entry[]): Entry | undefined {
  const gone = takenBack(all);
  return all.findLast((entry) => entry.is !== "undo" && entry.is !== "guide" && !gone.has(entry.key));
}

/** Where a work goes on. */
export interface Next {
  page: string;
  place: string; // in the page: step-4
  title: string;
  step: number; // 0 where it is no step
  of: number;
}

/** The guide in which something was done last and that is not at its end, with the step after its last tick, or the first one that was
 * left out. A calculator's own page has no end, so only a log counts there, and only if nothing was done elsewhere since. */
export function nextOf(all: Entry[]): Next | undefined {
  const stands = standing(all);
  const pages = new Set(stands.map(({ page }) => page).reverse());
  let first = true;
  for (const page of pages) {
    const here = stands.filter((entry) => entry.page === page);
    const done = here.filter(({ is }) => is !== "guide");
    const guide = here.findLast(({ is }) => is === "guide");
    if (!done.length) continue;
    const of = Number(guide?.told?.steps ?? 0);
    const step = of ? nextStep(done, of) : 0;
    if (step || (!of && first && done.at(-1)!.is === "reading")) return { page, place: step ? `step-${step}` : done.at(-1)!.place, title: guide?.text ?? page, step, of };
    first = false;
  }
  return undefined;
}

/** 0 where all are done. */
function nextStep(done: Entry[], of: number): number {
  const ticked = new Set<number>();
  const numberOf = (place: string) => parseInt(place.slice("step-".length)) || 0;
  for (const { is, place } of done) {
    if (is === "tick") ticked.add(numberOf(place));
    if (is === "untick") ticked.delete(numberOf(place));
  }
  const open = Array.from({ length: of }, (_, i) => i + 1).filter((step) => !ticked.has(step));
  if (!ticked.size) return numberOf(done.at(-1)!.place) || 1;
  return open.find((step) => step > Math.max(...ticked)) ?? open[0] ?? 0;
}
