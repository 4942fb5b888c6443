// The tables of units, made by build/bundle/choices.go. They are fetched by a page whose reader has chosen units, or is about to.
import { fetchFile } from "./fetched";
import file from "./choices.txt";

interface Tables {
  /** By symbol: the SI value of one. */
  units: Record<string, number>;
  /** By symbol: the SI value of none, where that is not 0. */
  zeros: Record<string, number>;
  /** By kind of a page's quantities: its topic, then its choices: a unit, or "kPa 10 Pa", of which the first counts from 10 on. */
  kinds: Record<string, string[]>;
  /** The sheet on which a reader chooses, as HTML. */
  sheet: string;
}

export let { units, zeros, kinds, sheet }: Tables = { units: {}, zeros: {}, kinds: {}, sheet: "" };

export function useTables(all: Tables): void {
  ({ units, zeros, kinds, sheet } = all);
}

let coming: Promise<void> | undefined;

/** A try that fails is followed by another. */
export function fetchTables(): Promise<void> {
  return (coming ??= fetchFile(new URL(file, import.meta.url).href).then(async (file) => useTables(await file.json())).catch((cause: unknown) => {
    coming = undefined;
    throw cause;
  }));
}
