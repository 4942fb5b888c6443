// The jobs on this phone: what was ticked, read and found, kept in the browser's own database and nowhere else.
//
// Entries are only ever added; taking one back, or changing it, adds another. So nothing that was kept is written over, two
// tabs cannot lose each other's, and undoing works after a reload too (see standing.ts).

/** One machine on the bench. Texts are as they were typed, and may be empty. */
export interface Job {
  id: string;
  begun: number; // ms since 1970, by the phone's clock
  machine: string;
  serial: string;
  customer: string; // reference, as the shop has it
  who: string; // initials
}

/** What happened, when and where. What `is` says decides what else is there. */
export interface Entry {
  key: number; // in the order of writing
  job: string;
  at: number; // ms since 1970, by the phone's clock
  beat: [life: string, ms: number]; // since which page was opened, by a clock that nobody can set
  page: string; // below the root of the site: procedures/rise-test/
  place: string; // its step or calculator: step-3, c2
  is: "guide" | "tick" | "untick" | "note" | "reading" | "result" | "undo" | "edit" | "clear";
  of?: number; // undo, edit: the key of the entry that it is about
  text?: string; // in words: a note, what the step says, the title of the guide or of the calculator
  id?: string; // of a result: the calculator
  given?: Record<string, string>; // of a reading or a calculation: the entries by name, as typed
  told?: Record<string, string>; // of a result: what the calculator said; guide: its revision and edition
}

export type New = Pick<Entry, "page" | "place" | "is"> & Partial<Pick<Entry, "of" | "text" | "id" | "given" | "told">>;

/** Why nothing is kept beyond this page; empty while all is well. */
export let trouble = "";

const root = new URL(document.documentElement.dataset.root || "./", location.href).pathname;
const NAME = "blankoff " + root; // two sites of one host share a store of databases
const LAST = "job " + root;
const channel = "BroadcastChannel" in window ? new BroadcastChannel(NAME) : undefined;
const life = letters(6);
const listeners = new Set<() => void>();
channel?.addEventListener("message", tellHere);

/** Calls when something was written, here or in another tab, or when writing begins to fail; what it gives ends that. */
export function onChange(act: () => void): () => void {
  listeners.add(act);
  return () => void listeners.delete(act);
}

/** This moment, by both clocks. */
export function now(): Pick<Entry, "at" | "beat"> {
  return { at: Date.now(), beat: [life, Math.round(performance.now())] };
}

function tellHere(): void {
  for (const act of listeners) act();
}

function tellAll(): void {
  channel?.postMessage("");
  tellHere();
}

function letters(n: number): string {
  const from = "23456789abcdefghjkmnpqrstvwxyz";
  return Array.from(crypto.getRandomValues(new Uint8Array(n)), (x) => from[x % from.length]).join("");
}

let opened: Promise<IDBDatabase> | undefined;

function database(): Promise<IDBDatabase> {
  opened ??= new Promise<IDBDatabase>((resolve, reject) => {
    const asked = indexedDB.open(NAME, 1);
    asked.onupgradeneeded = () => {
      asked.result.createObjectStore("jobs", { keyPath: "id" });
      asked.result.createObjectStore("entries", { keyPath: "key", autoIncrement: true }).createIndex("job", "job");
    };
    asked.onsuccess = () => {
      const db = asked.result;
      // Somebody erases all, or the browser throws it away: the next call opens anew.
      db.onclose = db.onversionchange = () => {
        db.close();
        opened = undefined;
      };
      resolve(db);
    };
    asked.onerror = () => reject(asked.error);
    asked.onblocked = () => reject(new Error("another tab holds the old store"));
  });
  return opened;
}

type Act<T> = (jobs: IDBObjectStore, entries: IDBObjectStore) => IDBRequest<T> | undefined;

/** Runs one transaction; what it gives is there only when all of it is on the disk. Whole: nothing follows, so that it need not wait to be committed. */
async function transact<T>(mode: IDBTransactionMode, act: Act<T>, whole = false): Promise<T | undefined> {
  const db = await database();
  return new Promise((resolve, reject) => {
    const step = db.transaction(["jobs", "entries"], mode, { durability: "strict" });
    const asked = act(step.objectStore("jobs"), step.objectStore("entries"));
    if (whole) step.commit();
    step.oncomplete = () => resolve(asked?.result);
    step.onabort = step.onerror = () => reject(step.error ?? asked?.error ?? new Error("the store refused"));
  });
}

/** What could not be kept, so that it is at least there until the page is left. */
const loose: { jobs: Job[]; entries: Entry[] } = { jobs: [], entries: [] };
const LOOSE = 2 ** 40; // keys of loose entries come after all kept ones

function fail(cause: unknown): void {
  const full = cause instanceof DOMException && cause.name === "QuotaExceededError";
  trouble = full
    ? "The phone's storage is full. What you enter now is gone when this page is left: export or share it first, then make room."
    : "This browser keeps nothing, as private windows do. What you enter is gone when this page is left: export or share it first.";
}

/** Writes; what the store refuses stays loose, and `trouble` says so. */
async function write<T>(act: Act<T>, keepLoose: () => void, done = () => {}, whole = false): Promise<T | undefined> {
  try {
    const result = await transact("readwrite", act, whole);
    done();
    tellAll();
    return result;
  } catch (cause) {
    fail(cause);
    keepLoose();
    done();
    tellHere();
    return undefined;
  }
}

async function read<T>(act: Act<T[]>, more: T[]): Promise<T[]> {
  try {
    return [...((await transact("readonly", act)) ?? []), ...more];
  } catch (cause) {
    fail(cause);
    return more.slice();
  }
}

/** All jobs, the last one begun first. */
export async function jobs(): Promise<Job[]> {
  const list = await read<Job>((all) => all.getAll() as IDBRequest<Job[]>, loose.jobs);
  const last = new Map(list.map((job) => [job.id, job])); // a change that stayed loose counts
  return [...last.values()].sort((a, b) => b.begun - a.begun || (a.id < b.id ? -1 : 1));
}

/** The job that this tab works on, if there is one. Two tabs may work on two; a new tab goes on with the last one. */
export async function current(): Promise<Job | undefined> {
  const id = remembered(sessionStorageOf) ?? remembered(localStorageOf) ?? here;
  return id ? (await jobs()).find((job) => job.id === id) : undefined;
}

let here: string | undefined; // where the browser remembers nothing
const sessionStorageOf = (): Storage => sessionStorage;
const localStorageOf = (): Storage => localStorage;

function remembered(storage: () => Storage): string | undefined {
  try {
    return storage().getItem(LAST) ?? undefined;
  } catch {
    return here;
  }
}

/** Makes a job this tab's. */
export function choose(id: string): void {
  here = id;
  mine = undefined;
  for (const storage of [sessionStorageOf, localStorageOf]) {
    try {
      storage().setItem(LAST, id);
    } catch {
      // It is remembered for this page.
    }
  }
  tellHere();
}

export async function begin(what: Partial<Job> = {}): Promise<Job> {
  const job: Job = { machine: "", serial: "", customer: "", who: "", ...what, id: letters(8), begun: Date.now() };
  await change(job);
  choose(job.id);
  mine = Promise.resolve(job);
  return job;
}

/** Keeps what was changed about a job. */
export async function change(job: Job): Promise<void> {
  await write((all) => all.put(job), () => loose.jobs.push(job));
}

/** The job that is written to. It is known ahead, so that what happens while a page is left can still be kept. */
let mine: Promise<Job> | undefined;
channel?.addEventListener("message", () => (mine = undefined)); // another tab may have erased it

/** The first tap of a day must not ask for a serial number, so it begins a job without. */
function needed(): Promise<Job> {
  mine ??= current().then((job) => job ?? begin());
  mine.catch(() => (mine = undefined));
  return mine;
}

/** Adds what happened to this tab's job. It is stamped when it happens, not when the disk has it; done is called before others hear of it. */
export async function add(what: New, done?: () => void, stamp = now()): Promise<Entry> {
  const entry: Omit<Entry, "key"> = { ...what, job: (await needed()).id, ...stamp };
  let key = LOOSE + loose.entries.length;
  const kept = await write((_, all) => all.add(entry), () => loose.entries.push({ ...entry, key }), done, true);
  key = (kept as number | undefined) ?? key;
  return { ...entry, key };
}

/** Everything that was written for a job, in the order of writing. */
export async function entriesOf(job: string): Promise<Entry[]> {
  const own = loose.entries.filter((entry) => entry.job === job);
  return read<Entry>((_, all) => all.index("job").getAll(job) as IDBRequest<Entry[]>, own);
}

/** Puts in a job from elsewhere, under a new name if its own is taken. Either all of it is kept, or none. */
export async function take(job: Job, entries: Entry[]): Promise<Job> {
  const taken = (await jobs()).some(({ id }) => id === job.id);
  const copy = taken ? { ...job, id: letters(8) } : job;
  const keys = new Map<number, number>();
  await transact<unknown>("readwrite", (all, rows) => {
    all.put(copy);
    // Keys are given anew; entries that point at others come after them.
    const next = (i: number): void => {
      if (i === entries.length) return;
      const { key, of, ...rest } = entries[i]!;
      const asked = rows.add({ ...rest, job: copy.id, ...(of === undefined ? {} : { of: keys.get(of) ?? 0 }) });
      asked.onsuccess = () => {
        keys.set(key, asked.result as number);
        next(i + 1);
      };
    };
    next(0);
    return undefined;
  });
  tellAll();
  return copy;
}

/** Removes one job with all of its entries. */
export async function forget(id: string): Promise<void> {
  mine = undefined;
  loose.jobs = loose.jobs.filter((job) => job.id !== id);
  loose.entries = loose.entries.filter((entry) => entry.job !== id);
  await write<unknown>((all, rows) => {
    all.delete(id);
    const each = rows.index("job").openKeyCursor(id);
    each.onsuccess = () => {
      if (!each.result) return;
      rows.delete(each.result.primaryKey);
      each.result.continue();
    };
    return undefined;
  }, () => {});
}

/** Removes all jobs from this phone. */
export async function eraseAll(): Promise<void> {
  loose.jobs = [];
  loose.entries = [];
  here = mine = undefined;
  await write<unknown>((all, rows) => {
    rows.clear();
    all.clear();
    return undefined;
  }, () => {});
  for (const storage of [sessionStorageOf, localStorageOf]) {
    try {
      storage().removeItem(LAST);
    } catch {
      // There is nothing.
    }
  }
}
