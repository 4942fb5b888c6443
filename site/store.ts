// The browser's own database of jobs. What it refuses stays here, is tried again with whatever is written next, and `trouble`
// says so.
import { home } from "./place";

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
  told?: Record<string, string>; // of a result: what the calculator said; of a guide: the state it was in, see work.ts
}

/** Why what is entered is not kept beyond this page; empty while all is well. */
export let trouble = "";

const NAME = "blankoff " + home.pathname; // two sites of one host share a store of databases
type Listener = (job: string, elsewhere: boolean) => void;
let open: BroadcastChannel | undefined;

/** The first one keeps in mind what was read, and must forget it before the others look. */
export const listeners = new Set<Listener>();

/** To the other tabs; pages that keep nothing open none. */
function channel(): BroadcastChannel {
  if (!open) {
    open = new BroadcastChannel(NAME);
    open.addEventListener("message", ({ data }: MessageEvent<string>) => tellHere(data, true));
  }
  return open;
}

/** Calls when something was written or chosen, here or in another tab, or when writing begins to fail, with the job that it was
 * about, or "" for any; what it gives ends that. */
export function onChange(act: Listener): () => void {
  channel();
  listeners.add(act);
  return () => void listeners.delete(act);
}

export function tellHere(job: string, elsewhere = false): void {
  for (const act of listeners) act(job, elsewhere);
}

// A page that comes back as it was left knows nothing of what has been done since.
addEventListener("pageshow", (event) => {
  isLeft = false;
  if ((event as PageTransitionEvent).persisted) tellHere("", true);
});

let opened: Promise<IDBDatabase> | undefined;
let wasOpen = false;

function database(): Promise<IDBDatabase> {
  opened ??= new Promise<IDBDatabase>((resolve, reject) => {
    const asked = indexedDB.open(NAME, 1);
    asked.onupgradeneeded = () => {
      asked.result.createObjectStore("jobs", { keyPath: "id" });
      asked.result.createObjectStore("entries", { keyPath: "key", autoIncrement: true }).createIndex("job", "job");
    };
    asked.onsuccess = () => {
      const db = asked.result;
      wasOpen = true;
      // Somebody erases all, a newer page wants another form, or the browser throws it away: the next call opens anew.
      db.onclose = db.onversionchange = () => {
        db.close();
        opened = undefined;
      };
      resolve(db);
    };
    asked.onerror = () => reject(asked.error);
  });
  opened.catch(() => (opened = undefined));
  return opened;
}

const reading = new Set<IDBTransaction>();
let isLeft = false;

// A page that a browser puts away as it is would hold all others up with a look that it has not finished.
addEventListener("pagehide", () => {
  isLeft = true;
  for (const step of reading) step.abort();
});

type Act<T> = (jobs: IDBObjectStore, entries: IDBObjectStore, step: IDBTransaction) => IDBRequest<T> | void;

/** Runs one transaction; what it gives is there only when all of it is on the disk. */
async function transact<T>(mode: IDBTransactionMode, act: Act<T>): Promise<T | undefined> {
  const db = await database();
  if (isLeft && mode === "readonly") throw new Error("nobody looks");
  return new Promise((resolve, reject) => {
    const step = db.transaction(["jobs", "entries"], mode, { durability: "strict" });
    if (mode === "readonly") reading.add(step);
    const end = (act: () => void) => () => {
      reading.delete(step);
      act();
    };
    step.oncomplete = end(() => resolve(asked?.result));
    step.onabort = end(() => reject(step.error));
    let asked: IDBRequest<T> | void;
    try {
      asked = act(step.objectStore("jobs"), step.objectStore("entries"), step);
    } catch (cause) {
      reject(cause as Error);
      step.abort();
    }
  });
}

/** What could not be kept, so that it is at least there until the page is left. */
export let looseJobs: Job[] = [];
let looseEntries: Entry[] = [];
const LOOSE = 2 ** 40; // keys of loose entries come after all kept ones
let count = 0;

/** Leaving the page would lose them. */
const warn = (event: Event) => looseEntries.length && event.preventDefault();

/** Why a write failed, as a sentence without its end. */
function why(cause: unknown): string {
  if ((cause as Error)?.name === "QuotaExceededError") return "The phone's storage is full";
  if ((cause as Error)?.name === "VersionError") return "A newer page of this site keeps the jobs by now: load this one again";
  return wasOpen ? "The browser broke off while it kept this" : "This browser keeps nothing, as some private windows do";
}

function fail(cause: unknown): void {
  addEventListener("beforeunload", warn);
  trouble = why(cause) + ". What you enter is gone when this page is left: save it as a file first.";
}

/** Writes all of it or nothing, and says whether, first to done, which comes before all who listen; jobs that were refused before go with it. */
export async function write(job: string, act: Act<unknown>, done = (_kept: boolean) => {}): Promise<boolean> {
  const changed = looseJobs;
  const kept = await transact("readwrite", (jobs, entries, step) => {
    for (const one of changed) jobs.put(one);
    return act(jobs, entries, step);
  }).then(() => true, fail) ?? false;
  if (kept) looseJobs = looseJobs.filter((one) => !changed.includes(one));
  done(kept);
  if (kept && !looseEntries.length) trouble = "";
  if (kept) channel().postMessage(job);
  tellHere(job);
  return kept;
}

export async function read<T>(act: Act<T[]>): Promise<T[]> {
  try {
    return (await transact("readonly", act)) ?? [];
  } catch (cause) {
    if (isLeft) return new Promise(() => {}); // "nothing is there" would be wrong, and acted upon
    fail(cause);
    return [];
  }
}

/** Keeps what was changed about a job. */
export function keepJob(job: Job): Promise<boolean> {
  looseJobs = [...looseJobs.filter(({ id }) => id !== job.id), { ...job }];
  return write(job.id, (_jobs, _rows, step) => step.commit());
}

/** Whether an entry is about another one of these, whose key is still to be given. */
function waitsFor(entries: Entry[], of?: number): boolean {
  return of !== undefined && entries.some(({ key }) => key === of);
}

/** Adds entries in their order; keys are given anew, and what is about one of them follows it. */
export function addAll(rows: IDBObjectStore, entries: Entry[], keys = new Map<number, number>(), i = 0): void {
  for (; i < entries.length; i++) {
    const { key, of, ...rest } = entries[i]!;
    const asked = rows.add(of === undefined ? rest : { ...rest, of: keys.get(of) ?? of });
    const next = i + 1;
    asked.onsuccess = () => {
      keys.set(key, asked.result as number);
      if (waits) addAll(rows, entries, keys, next);
    };
    const waits = waitsFor(entries, entries[next]?.of);
    if (waits) return;
  }
}

const sent = new Set<Entry>();

/** Keeps entries, and before them those that were refused; gives the key of the last. */
export async function keepEntries(job: string, added: Omit<Entry, "key">[], done: () => void): Promise<number> {
  looseEntries.push(...added.map((entry) => ({ ...entry, key: LOOSE + ++count })));
  const last = looseEntries.at(-1)!.key;
  const batch = looseEntries.filter((entry) => !sent.has(entry));
  const keys = new Map<number, number>();
  for (const entry of batch) sent.add(entry);
  const kept = await write(
    job,
    (_, rows, step) => {
      addAll(rows, batch, keys);
      if (!batch.some(({ of }) => waitsFor(batch, of))) step.commit(); // it need not wait for the page, which may be on its way out
    },
    (kept) => {
      for (const entry of batch) sent.delete(entry);
      if (kept) looseEntries = looseEntries.filter((entry) => !batch.includes(entry));
      done();
    },
  );
  return (kept && keys.get(last)) || last; // a key that was given and then broken off counts for nothing
}

export function looseOf(job: string): Entry[] {
  return looseEntries.filter((entry) => entry.job === job);
}

/** Lets loose entries go, of one job or, without a name, of all. */
export function letGo(job?: string): void {
  looseJobs = looseJobs.filter(({ id }) => job && id !== job);
  looseEntries = looseEntries.filter((entry) => job && entry.job !== job);
}
