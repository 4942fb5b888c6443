// The jobs on this phone: what was ticked, read and found, kept in the browser's own database (store.ts) and nowhere else.
//
// Entries are only ever added; taking one back, or changing it, adds another. So nothing that was kept is written over, two
// tabs cannot lose each other's, and undoing works after a reload too (see standing.ts).
import { save } from "./csv";
import { recall, remember, tab } from "./memory";
import { home, own, pageOf } from "./place";
import { addAll, keepEntries, keepJob, letGo, listeners, looseJobs, looseOf, onChange, read, tellHere, write, type Entry, type Job } from "./store";

export { keepJob, onChange, trouble, type Entry, type Job } from "./store";

export type New = Pick<Entry, "page" | "place" | "is"> & Partial<Pick<Entry, "of" | "text" | "id" | "given" | "told">>;

/** Where the job in hand is kept, by its id: for the tab, and for tabs to come. */
export const LAST = "job " + home.pathname;
const life = letters();

/** This moment, by both clocks. */
export function now(): Pick<Entry, "at" | "beat"> {
  return { at: Date.now(), beat: [life, Math.round(performance.now())] };
}

/** A name that nothing else has. */
function letters(): string {
  return Math.random().toString(36).slice(2, 10);
}

export function nameOf(job: Job): string {
  return job.serial || [job.machine, job.customer].filter(Boolean).join(", ") || "Unnamed job";
}

/** All jobs, the last one begun first. */
export async function jobs(): Promise<Job[]> {
  const list = await read<Job>((all) => all.getAll() as IDBRequest<Job[]>);
  const last = new Map([...list, ...looseJobs].map((job) => [job.id, job])); // a change that stayed loose counts
  return [...last.values()].sort((a, b) => b.begun - a.begun);
}

/** The job that this tab works on, if there is one. Two tabs may work on two; a new tab goes on with the last one, and stays with it. */
export async function current(): Promise<Job | undefined> {
  const id = recall(LAST, tab) || recall(LAST);
  if (!id) return undefined;
  const [job] = await read<Job>((all) => all.getAll(id) as IDBRequest<Job[]>);
  const found = looseJobs.find((one) => one.id === id) ?? job;
  if (found) remember(LAST, id, tab);
  return found;
}

/** The job in hand, with everything that was written for it. */
export async function inHand(): Promise<[job: Job | undefined, all: Entry[]]> {
  const job = await current();
  return [job, job ? await entriesOf(job.id) : []];
}

/** Shows the job in hand, now and at every change, also one that another tab makes; what it gives ends that. */
export function watch(show: (job: Job | undefined, all: Entry[]) => void): () => void {
  let asked = 0;
  const look = async () => {
    const turn = ++asked;
    const now = await inHand();
    if (turn === asked) show(...now);
  };
  void look();
  return onChange(() => void look());
}

/** Makes a job this tab's; none puts the one in hand aside. */
export function choose(id = ""): void {
  remember(LAST, id, tab);
  remember(LAST, id);
  mine = undefined;
  tellHere(id);
}

/** A job is for the machine that the reader has chosen, until something else is said. Its first entry need not wait until it is kept: they go to the disk together. */
export function begin(what: Partial<Job> = {}): { job: Job; kept: Promise<boolean> } {
  const machine = document.querySelector<HTMLSelectElement>("[data-machine] select.machine")?.selectedOptions[0]?.label ?? "";
  const job: Job = { machine, serial: "", customer: "", who: "", ...what, id: letters(), begun: Date.now() };
  const kept = keepJob(job);
  choose(job.id);
  mine = Promise.resolve(job);
  known = { job: job.id, entries: Promise.resolve([]) };
  return { job, kept };
}

/** The job that is written to. It is known ahead, so that what happens while a page is left can still be kept. */
let mine: Promise<Job> | undefined;
let known: { job: string; entries: Promise<Entry[]> } | undefined; // what was read last, until something is written
listeners.add((_, elsewhere) => {
  known = undefined;
  if (elsewhere) mine = undefined; // it may have been erased
});

/** The first tap of a day must not ask for a serial number, so it begins a job without. */
function needed(): Promise<Job> {
  mine ??= current().then((job) => job ?? begin().job);
  mine.catch(() => (mine = undefined));
  return mine;
}

/** The page that is shown, as entries name it. */
export const thisPage = pageOf(location.pathname);
/** The guides on this page: its own, and those that were opened in its text. */
export const guides = new Map([[thisPage, document.querySelector("main")!]]);

/** What the first entry of a guide says of it: its title, and which state it is in. The text's digest is another one as soon as the
 * page says anything else; the edition and the calculators are those of the whole site. */
function guideOf(page: string): New {
  const part = guides.get(page)!;
  const { text = "", revision = "" } = part.dataset;
  const { edition = "", calc = "" } = document.documentElement.dataset;
  const told = { revision, text, edition, calculators: calc.split(".").at(-2) ?? "", steps: String(own(part, ".step").length) };
  return { page, place: "", is: "guide", text: part.querySelector("h1, .branch-title")?.textContent ?? page, told };
}

/** The digest of a guide's text of which a job knows. */
export function textOf(all: Entry[], page: string): string | undefined {
  return all.findLast((entry) => entry.is === "guide" && entry.page === page)?.told?.text;
}

/** By job, page and digest: what is said of the guide, or need not be. */
const named = new Set<string>();

async function naming(job: string, page: string): Promise<New[]> {
  if (!guides.has(page)) return [];
  const guide = guideOf(page);
  const { text } = guide.told!;
  const name = job + page + text;
  if (named.has(name)) return [];
  named.add(name);
  return textOf(await entriesOf(job), page) === text ? [] : [guide];
}

/** Adds what happened to this tab's job. It is stamped when it happens, not when the disk has it; done is called before others hear of it. */
export async function add(what: New, done = () => {}, stamp = now()): Promise<Entry> {
  const { id } = await needed();
  const entries = [...(await naming(id, what.page)), what].map((one) => ({ ...one, job: id, ...stamp }));
  return { ...entries.at(-1)!, key: await keepEntries(id, entries, done) };
}

/** Everything that was written for a job, in the order of writing. */
export async function entriesOf(job: string): Promise<Entry[]> {
  if (known?.job !== job) known = { job, entries: read<Entry>((_, rows) => rows.index("job").getAll(job) as IDBRequest<Entry[]>) };
  return [...(await known.entries), ...looseOf(job)];
}

/** When something was written last for each of these jobs: the index knows it, without a look at the rest. */
export async function lastOf(ids: string[]): Promise<Map<string, number>> {
  const found = new Map<string, number>();
  await read((_, rows) => {
    for (const id of ids) {
      const asked = rows.index("job").openCursor(id, "prev");
      asked.onsuccess = () => asked.result && found.set(id, (asked.result.value as Entry).at);
    }
  });
  return found;
}

/** Puts in jobs from elsewhere, under a new name where theirs is taken. Either all of it is kept, or none; gives the last. */
export async function take(parcels: { job: Job; entries: Entry[] }[]): Promise<Job | undefined> {
  const taken = new Set((await jobs()).map(({ id }) => id));
  const copies = parcels.map(({ job, entries }) => {
    const id = taken.has(job.id) ? letters() : job.id;
    taken.add(id);
    return { job: { ...job, id }, entries: entries.map((entry) => ({ ...entry, job: id })) };
  });
  const kept = await write("", (all, rows) => {
    for (const { job, entries } of copies) {
      all.put(job);
      addAll(rows, entries);
    }
  });
  return kept ? copies.at(-1)?.job : undefined;
}

/** Removes one job with all of its entries. */
export function forget(id: string): Promise<boolean> {
  mine = undefined;
  letGo(id);
  return write(id, (all, rows) => {
    all.delete(id);
    const keys = rows.index("job").getAllKeys(id);
    keys.onsuccess = () => keys.result.forEach((key) => rows.delete(key));
  });
}

/** Removes all jobs from this phone. */
export function eraseAll(): Promise<boolean> {
  letGo();
  choose();
  return write("", (all, rows) => {
    rows.clear();
    all.clear();
  });
}

/** As schemas/work-record.json describes it. */
export interface Parcel {
  format: typeof FORMAT;
  jobs: { job: Job; entries: Entry[] }[];
}

export const FORMAT = "blankoff work record 1";

/** Jobs on their way to another phone, with what this one refused to keep. */
export function parcelOf(jobs: Parcel["jobs"], indent = 0): string {
  return JSON.stringify({ format: FORMAT, jobs } satisfies Parcel, undefined, indent);
}

async function parcel(list: Job[]): Promise<string> {
  return parcelOf(await Promise.all(list.map(async (job) => ({ job, entries: await entriesOf(job.id) }))), 1) + "\n";
}

export async function saveJobs(list: Job[]): Promise<void> {
  const name = list.length === 1 ? nameOf(list[0]!) : "jobs";
  save(await parcel(list), "application/json", `work-record-${name.replace(/[^\w-]+/g, "-").slice(0, 60)}.json`);
}
