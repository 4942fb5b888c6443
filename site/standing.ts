// What stands of a job after all that was taken back, changed and cleared.
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

/** What an undo would take back: the last thing done in this place that still stands, a clearing included. */
export function lastDone(all: Entry[], page: string, place?: string): Entry | undefined {
  const gone = takenBack(all);
  return all.filter((entry) => entry.is !== "undo" && entry.is !== "guide" && entry.page === page && (place === undefined || entry.place === place) && !gone.has(entry.key)).at(-1);
}
