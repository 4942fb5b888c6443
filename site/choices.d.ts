// What build/bundle/choices.go makes from the tables of calc/quantity; the module is part of the bundle only.

/** By symbol: the SI value of one. */
export const units: Record<string, number>;

/** By symbol: the SI value of none, where that is not 0. */
export const zeros: Record<string, number>;

/** By kind of a page's quantities: its topic, then its choices: a unit, or "kPa 10 Pa", of which the first counts from 10 on. */
export const kinds: Record<string, string[]>;
