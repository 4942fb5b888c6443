// Writes quantities in other units, no finer than their author wrote them. Nothing here knows the page.
import { kinds, units, zeros } from "./choices";

/** Topics, as their first kind is called, and for each the last unit of the choice; the others stay as they were written. */
export type Choice = Record<string, string>;

/** A quantity as its element holds it, see build/render/quantities.go. */
export interface Written {
  kind: string;
  value: string; // its numbers in SI
  steps: string; // data-steps: the step of its one number; else words and steps in turn
  text: string; // as the author wrote it
}

const HOLD = "\u00a0";

/** The units that a kind is shown in, the larger first, and from which number on; none where it stays as it was written. */
export function unitsFor(kind: string, choice: Choice): [symbol: string, least: number][] {
  return Object.values(choice).map((unit) => kinds[kind]?.[unit]).find(Boolean) ?? [];
}

/** The quantity in the unit of choice that suits it; nothing where its author used one of these units. */
export function rewrite({ kind, value, steps, text }: Written, choice: Choice): string | undefined {
  const wanted = unitsFor(kind, choice);
  const own = plain(text);
  if (!wanted.length || wanted.some(([symbol]) => RegExp(`(?<!\\p{L})${symbol}( gauge| absolute)?$`, "u").test(own))) return undefined;
  const values = value.split(" ");
  const parts = steps.includes("|") ? steps.split("|") : ["", steps, ""];
  const before = (i: number) => parts[2 * i]!; // the words that lead to a number
  const step = (i: number) => +parts[2 * i + 1]!;
  const numbersIn = (symbol: string) => values.map((si, i) => (+si - (/±/.test(before(i)) || / difference/.test(kind) ? 0 : zeroOf(symbol))) / units[symbol]!);
  // The first in which the largest number is not too small; the last one suits all.
  const [symbol] = wanted.find(([symbol, least]) => numbersIn(symbol).some((number) => Math.abs(number) >= least * (1 - 1e-9))) ?? wanted[1]!;
  const numbers = numbersIn(symbol);
  const ends = numbers.map((number, i) => end(number, step(i) / units[symbol]!));
  const shown = numbers.map((number, i) => {
    // Both ends of a range that was written to one step end at one place.
    const last = Math.min(...ends.filter((_, j) => step(i) === step(j)));
    const figures = decimal(Number(number.toPrecision(12)), last);
    // Behind a dash, a minus would be lost on a reader.
    return (figures.startsWith("−") ? before(i).replace(/^\s*[-–—]\s*$/, " to ") : before(i)) + figures;
  });
  const anew = shown.join("") + (/\d-\p{L}/u.test(own) ? "-" : HOLD) + symbol + before(values.length);
  return plain(anew) === own ? undefined : anew.replaceAll(" ± ", `${HOLD}±${HOLD}`);
}

/** Without no-break spaces. */
export function plain(text: string): string {
  return text.replace(/\s/g, " ");
}

/** The SI value of none, which is not 0 on scales of temperature alone. */
export function zeroOf(symbol: string): number {
  return zeros[symbol] ?? 0;
}

/**
 * The power of ten to end at: the largest, not above twice the author's last step, at which the number shown still lies
 * within half a step of the one written. So whoever turns it back and rounds it as the author did has what was written.
 */
function end(number: number, step: number): number {
  let last = Math.floor(Math.log10(2 * step) + 1e-9);
  while (Math.abs(Math.round(number / 10 ** last) * 10 ** last - number) > (step / 2) * (1 + 1e-9)) last--;
  return last;
}

/** A number rounded to 10^last, as the build prints numbers. */
export function decimal(number: number, last: number): string {
  const size = Math.abs(number);
  const sign = number < 0 ? "−" : "";
  if (size && (size < 1e-4 || size >= 1e7)) {
    let power = Math.floor(Math.log10(size) + 1e-12);
    const mantissa = () => whole(size / 10 ** power, Math.min(last - power, 0));
    if (mantissa().startsWith("10")) power++;
    return sign + mantissa() + "×10" + raised(power);
  }
  const text = whole(size, last);
  return /[1-9]/.test(text) ? sign + text : text;
}

function whole(size: number, last: number): string {
  const places = Math.max(0, -last);
  const count = Math.round(Number((size / 10 ** last).toPrecision(12)));
  return (last < 0 ? count / 10 ** -last : count * 10 ** last).toFixed(places).replace(/(?<!\.\d*)\B(?=(\d{3})+(?!\d))/g, ",");
}

function raised(power: number): string {
  return String(power).replace(/./g, (sign) => "⁰¹²³⁴⁵⁶⁷⁸⁹"[+sign] ?? "⁻");
}

/** Numbers as pages show them, each with what is behind ± if it has that, and a unit that can be switched. A kelvin may be a difference. */
const quantity = () =>
  new RegExp(`(?<![\\p{L}\\d.,/-])((?:±\\s)?)([-−]?[\\d,]+(?:\\.\\d+)?)((?:\\s±\\s[\\d.]+)?)\\s(?!K)(${Object.keys(units).join("|")})(?![\\p{L}\\d/·²³])`, "gu");

let made: RegExp | undefined;

/** Rewrites the quantities of a text that was never marked: in a picture; or exactly in an entry, whose noughts
 * all count, with a figure more so that the answer stays. */
export function rewriteAll(text: string, choice: Choice, exact = false): string {
  return text.replace((made ??= quantity()), (own: string, lead: string, number: string, spread: string, symbol: string) => {
    const factor = units[symbol]!;
    const more = spread.slice(3);
    const steps = [lead, stepOf(number, exact) * factor, ...(more && [" ± ", stepOf(more, exact) * factor]), ""].join("|");
    const value = (lead ? 0 : zeroOf(symbol)) + amount(number) * factor + (more && ` ${amount(more) * factor}`);
    return rewrite({ kind: kindOf(symbol), value, steps, text: own }, choice) ?? own;
  });
}

export function kindOf(symbol: string): string {
  return Object.keys(kinds).find((kind) => Object.values(kinds[kind]!).flat().some(([unit]) => unit === symbol)) ?? "";
}

export function amount(text: string): number {
  return Number(text.replace("−", "-").replaceAll(",", ""));
}

/** The last written figure; of a whole number that ends in noughts the third one. */
function stepOf(number: string, exact: boolean): number {
  const [before, after] = number.replace(/[-−,]/g, "").split(".");
  const noughts = Math.min(before!.match(/0*$/)![0].length, before!.length - 3);
  return after || exact ? 10 ** -((after?.length ?? 0) + +exact) : 10 ** Math.max(0, noughts);
}
