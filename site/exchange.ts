// A job on its way from one phone to another: as a JSON file, or packed into the fragment of an address. What comes in is
// looked at piece by piece, since anybody can write such a file; what is not known is left out, what is wrong refuses it.
import { ask } from "./host";
import { must } from "./must";
import { FORMAT, type Entry, type Job, type Parcel } from "./work";

/** Beyond this a parcel is no day's work but an attack, or a mistake. */
const MOST = { bytes: 20e6, jobs: 1000, entries: 100_000, text: 20_000, names: 200 };

const KINDS = /^(guide|tick|untick|note|reading|result|undo|edit|clear)$/;

type Raw = Record<string, unknown>;
type Shape = Record<string, (value: unknown) => boolean>;

const isObject = (value: unknown): value is Raw => Object(value) === value && !Array.isArray(value);
const isText = (value: unknown): value is string => typeof value === "string" && value.length <= MOST.text;
const isTime = (value: unknown) => typeof value === "number" && value >= 0 && value < 8.64e15;
const isTexts = (value: unknown) => isObject(value) && Object.keys(value).length <= MOST.names && Object.entries(value).flat().every(isText);

const JOB: Shape = { id: (value) => isText(value) && /^[a-z0-9]{1,20}$/.test(value), begun: isTime, machine: isText, serial: isText, customer: isText, who: isText };
const ENTRY: Shape = {
  key: Number.isSafeInteger,
  at: isTime,
  beat: (value) => Array.isArray(value) && value.length === 2 && isText(value[0]) && isTime(value[1]),
  page: isText,
  place: isText,
  is: (value) => isText(value) && KINDS.test(value),
};
const MORE: Shape = { of: Number.isSafeInteger, text: isText, id: isText, given: isTexts, told: isTexts };

function wrong(place: string): Error {
  return new Error(`This work record is damaged at ${place}, so nothing was taken.`);
}

/** What is known of an object, each part as it must be; what may be missing stands in more. */
function known<Kind>(raw: unknown, place: string, shape: Shape, more: Shape = {}): Kind {
  if (!isObject(raw)) throw wrong(place);
  const parts = Object.entries({ ...shape, ...more }).filter(([name]) => name in shape || raw[name] !== undefined);
  for (const [name, holds] of parts) if (!holds(raw[name])) throw wrong(`${place}.${name}`);
  return Object.fromEntries(parts.map(([name]) => [name, raw[name]])) as Kind;
}

function list(value: unknown, place: string, most: number): Raw[] {
  if (!Array.isArray(value) || value.length > most || !value.every(isObject)) throw wrong(place);
  return value;
}

/** Reads a parcel; what is wrong with it is thrown as a sentence. */
export function unparcel(text: string): Parcel["jobs"] {
  must(text.length <= MOST.bytes, "This is no work record: it is too large.");
  const read = parsed(text);
  must(isObject(read) && read.format === FORMAT, "This is no work record of this program, or it was cut off.");
  return list(read.jobs, "jobs", MOST.jobs).map((raw, i) => {
    const place = `jobs[${i}].`;
    const job = known<Job>(raw.job, place + "job", JOB);
    const seen = new Set<number>();
    const entries = list(raw.entries, place + "entries", MOST.entries).map((one, j) => entryOf(one, job.id, seen, `${place}entries[${j}]`));
    return { job, entries };
  });
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

function entryOf(raw: Raw, job: string, seen: Set<number>, place: string): Entry {
  const entry = { ...known<Entry>(raw, place, ENTRY, MORE), job };
  const { key, is, of } = entry;
  if (seen.has(key)) throw wrong(place + ".key");
  // What it is about must have come before it.
  if ((is === "undo" || is === "edit") !== (of !== undefined) || (of !== undefined && !seen.has(of))) throw wrong(place + ".of");
  seen.add(key);
  return entry;
}

/** What the calculators unpack: see calc/parcel. */
export async function unpack(digits: string): Promise<string> {
  const { out, error } = await ask({ id: "parcel", in: { digits } });
  if (!out) throw new Error(error!.text);
  return out.text!.text;
}
