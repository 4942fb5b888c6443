// What build/bundle/choices.go makes from the tables of calc/quantity; the module is part of the bundle only.

/** A unit: its number is (SI - zero) / factor. It is shown from the number least on. */
export interface Unit {
  symbol: string;
  factor: number;
  zero: number;
  least: number;
}

/** What a reader switches as one. For each choice a kind has a row of units, the larger first; the last one names it. */
export interface Topic {
  name: string;
  label: string;
  kinds: { kinds: string[]; units: Unit[][] }[];
}

export const topics: Topic[];
export const presets: { name: string; choices: Record<string, string> }[];
