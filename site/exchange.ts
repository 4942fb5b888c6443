// A job on its way from one phone to another: as a JSON file, or packed into the fragment of an address. What comes in is
// looked at piece by piece, since anybody can write such a file; what is not known is left out, what is wrong refuses it.
import type { Entry, Job } from "./work";

/** As schemas/work-record.json describes it. */
export interface Parcel {
  format: typeof FORMAT;
  jobs: { job: Job; entries: Entry[] }[];
}

const FORMAT = "blankoff work record 1";

/** Beyond this a parcel is no day's work but an attack, or a mistake. */
const MOST = { bytes: 20e6, jobs: 1000, entries: 100_000, text: 20_000, names: 200 };

const KINDS = ["guide", "tick", "untick", "note", "reading", "result", "undo", "edit", "clear"];

export function parcel(jobs: Parcel["jobs"]): string {
  return JSON.stringify({ format: FORMAT, jobs } satisfies Parcel, undefined, 1) + "\n";
}

/** Reads a parcel; what is wrong with it is thrown as a sentence. */
export function unparcel(text: string): Parcel["jobs"] {
  if (text.length > MOST.bytes) throw new Error("This file is too large to be a work record.");
  let read: unknown;
  try {
    read = JSON.parse(text);
  } catch {
    throw new Error("This is no work record: it is not JSON, or it was cut off.");
  }
  if (!isObject(read) || read.format !== FORMAT) throw new Error("This is no work record of this program.");
  return list(read.jobs, "jobs", MOST.jobs).map(({ job, entries }, i) => {
    if (!isObject(job)) throw wrong(`jobs[${i}].job`);
    const of = jobOf(job, `jobs[${i}].job`);
    const seen = new Set<number>();
    return { job: of, entries: list(entries, `jobs[${i}].entries`, MOST.entries).map((entry, j) => entryOf(entry, of.id, seen, `jobs[${i}].entries[${j}]`)) };
  });
}

type Raw = Record<string, unknown>;

function isObject(value: unknown): value is Raw {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function wrong(place: string): Error {
  return new Error(`This work record is damaged at ${place}, so nothing of it was taken.`);
}

function list(value: unknown, place: string, most: number): Raw[] {
  if (!Array.isArray(value) || value.length > most || !value.every(isObject)) throw wrong(place);
  return value;
}

function text(value: unknown, place: string): string {
  if (typeof value !== "string" || value.length > MOST.text) throw wrong(place);
  return value;
}

function time(value: unknown, place: string): number {
  if (typeof value !== "number" || !(value >= 0 && value < 8.64e15)) throw wrong(place);
  return value;
}

function texts(value: unknown, place: string): Record<string, string> {
  if (!isObject(value) || Object.keys(value).length > MOST.names) throw wrong(place);
  return Object.fromEntries(Object.entries(value).map(([name, one]) => [text(name, place), text(one, place)]));
}

function jobOf(raw: Raw, place: string): Job {
  const at = (name: string) => text(raw[name], `${place}.${name}`);
  const id = at("id");
  if (!/^[a-z0-9]{1,20}$/.test(id)) throw wrong(place + ".id");
  return { id, begun: time(raw.begun, place + ".begun"), machine: at("machine"), serial: at("serial"), customer: at("customer"), who: at("who") };
}

function entryOf(raw: Raw, job: string, seen: Set<number>, place: string): Entry {
  const { key, is, of, beat } = raw;
  if (typeof key !== "number" || !Number.isSafeInteger(key) || seen.has(key)) throw wrong(place + ".key");
  if (typeof is !== "string" || !KINDS.includes(is)) throw wrong(place + ".is");
  if (!Array.isArray(beat) || beat.length !== 2) throw wrong(place + ".beat");
  // What it is about must have come before it.
  if ((is === "undo" || is === "edit") !== (of !== undefined) || (of !== undefined && !seen.has(of as number))) throw wrong(place + ".of");
  seen.add(key);
  const entry: Entry = {
    key,
    job,
    at: time(raw.at, place + ".at"),
    beat: [text(beat[0], place + ".beat"), time(beat[1], place + ".beat")],
    page: text(raw.page, place + ".page"),
    place: text(raw.place, place + ".place"),
    is: is as Entry["is"],
  };
  if (of !== undefined) entry.of = of as number;
  if (raw.text !== undefined) entry.text = text(raw.text, place + ".text");
  if (raw.id !== undefined) entry.id = text(raw.id, place + ".id");
  if (raw.given !== undefined) entry.given = texts(raw.given, place + ".given");
  if (raw.told !== undefined) entry.told = texts(raw.told, place + ".told");
  return entry;
}

/** Packs a text into letters that an address may hold. */
export async function pack(plain: string): Promise<string> {
  const packed = new Response(new Blob([plain]).stream().pipeThrough(new CompressionStream("deflate-raw")));
  let bytes = "";
  for (const byte of new Uint8Array(await packed.arrayBuffer())) bytes += String.fromCharCode(byte);
  return btoa(bytes).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}

/** Unpacks it again. It stops at a size that no job has: few letters can hold a text of gigabytes. */
export async function unpack(packed: string): Promise<string> {
  const damaged = new Error("This address holds no whole work record: it was cut off on its way, or changed.");
  let bytes: Uint8Array<ArrayBuffer>;
  try {
    bytes = Uint8Array.from(atob(packed.replaceAll("-", "+").replaceAll("_", "/")), (letter) => letter.charCodeAt(0));
  } catch {
    throw damaged;
  }
  const reader = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate-raw")).pipeThrough(new TextDecoderStream("utf-8", { fatal: true })).getReader();
  let plain = "";
  for (;;) {
    const { done, value } = await reader.read().catch(() => {
      throw damaged;
    });
    if (done) return plain;
    plain += value;
    if (plain.length > MOST.bytes) {
      void reader.cancel();
      throw damaged;
    }
  }
}
