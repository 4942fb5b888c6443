// The tables of units, made by build/bundle/choices.go. They are fetched by a page whose reader has chosen units, or is about to.
import { fetchFile } from "./fetched";
import file from "./choices.txt";

interface Tables {
  /** By symbol: the SI value of one. */
  units: Record<string, number>;
  /** By symbol: the SI value of none, where that is not 0. */
  zeros: Record<string, number>;
  /** By kind of a page's quantities and by choice: its units, the larger first, each with the least number of it that is shown. */
  kinds: Record<string, Record<string, [symbol: string, least: number][]>>;
  /** By choice: what calculators are asked for, a unit by kind. */
  answered: Record<string, Record<string, string>>;
  /** The sheet on which a reader chooses, as HTML. */
  sheet: string;
  /** What pictures with a scale show instead, by picture and choice; from a file of its own, which the button names. */
  scales: Record<string, Record<string, string>>;
}

export let { units, zeros, kinds, answered, sheet, scales } = {} as Tables;

export function useTables(all: Tables): void {
  ({ units, zeros, kinds, answered, sheet, scales } = all);
}

let coming: Promise<void> | undefined;

/** A try that fails is followed by another. */
export function fetchTables(): Promise<void> {
  return (coming ??= fetchAll().catch((cause: unknown) => {
    coming = undefined;
    throw cause;
  }));
}

async function fetchAll(): Promise<void> {
  const files = [new URL(file, import.meta.url).href, document.querySelector<HTMLElement>(".thumb button")?.dataset.scales];
  const [tables, scales] = await Promise.all(files.map(async (file) => (file ? (await fetchFile(file)).json() : {})));
  useTables({ ...tables, scales });
}
