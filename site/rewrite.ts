// Writes quantities in other units, no finer than their author wrote them. Nothing here knows the page.
import { kinds, units } from "./choices";

/** Topics, as their first kind is called, and for each the last unit of the choice; the others stay as they were written. */
export type Choice = Record<string, string>;

/** A quantity as its element holds it, see build/render/quantities.go. */
export interface Written {
  kind: string;
  value: string; // its numbers in SI
  steps: string; // data-steps: the step of its one number; else words and steps in turn
  text: string; // as the author wrote it
}

interface Figure {
  before: string; // the words that lead to it
  si: number;
  step: number;
  difference: boolean;
}

const HOLD = "\u00a0";

/** The units that a kind is shown in, the larger first, and from which number on; none where it stays as it was written. */
export function unitsFor(kind: string, choice: Choice): [symbol: string, least: number][] {
  const [topic, ...choices] = kinds[kind] ?? [];
  const row = kinds[topic!]?.findIndex((units, i) => i && units.split(" ").pop() === choice[topic!]) ?? 0;
  const [larger, least, smaller] = choices[row - 1]?.split(" ") ?? [];
  if (smaller) return [[larger!, +least!], [smaller, 0]];
  return larger ? [[larger, 0]] : [];
}

/** The quantity in the unit of choice that suits it; nothing where its author used one of these units. */
export function rewrite(written: Written, choice: Choice): string | undefined {
  const wanted = unitsFor(written.kind, choice);
  const own = plain(written.text).replace(/ (gauge|absolute)$/, "");
  if (!wanted.length || wanted.some(([symbol]) => endsWith(own, symbol))) return undefined;
  const [figures, tail] = read(written);
  // The first in which the largest number is not too small; the last one suits all.
  const [symbol] = wanted.find(([symbol, least]) => figures.some((figure) => Math.abs(inUnit(figure, symbol)) >= least * (1 - 1e-9))) ?? wanted[1]!;
  const ends = figures.map((figure) => end(figure, symbol));
  let text = "";
  for (const figure of figures) {
    // Both ends of a range that was written to one step end at one place.
    const last = Math.min(...ends.filter((_, i) => figures[i]!.step === figure.step));
    const number = decimal(Number(inUnit(figure, symbol).toPrecision(12)), last);
    // Behind a dash, a minus would be lost on a reader.
    text += (number.startsWith("−") ? figure.before.replace(/^\s*[-–—]\s*$/, " to ") : figure.before) + number;
  }
  const anew = text + (/\d-\p{L}/u.test(own) ? "-" : HOLD) + symbol + tail;
  return plain(anew) === plain(written.text) ? undefined : anew.replaceAll(" ± ", `${HOLD}±${HOLD}`);
}

/** Without no-break spaces. */
export function plain(text: string): string {
  return text.replace(/\s/g, " ");
}

function endsWith(text: string, symbol: string): boolean {
  return text.endsWith(symbol) && !/\p{L}/u.test(text.slice(0, -symbol.length).slice(-1));
}

function read({ kind, value, steps }: Written): [Figure[], string] {
  const values = value.split(" ").map(Number);
  const parts = steps.includes("|") ? steps.split("|") : ["", steps, ""];
  const figures = values.map((si, i) => {
    const before = parts[2 * i] ?? "";
    return { before, si, step: Number(parts[2 * i + 1]), difference: /±/.test(before) || / difference/.test(kind) };
  });
  return [figures, parts[2 * values.length] ?? ""];
}

function inUnit({ si, difference }: Figure, symbol: string): number {
  const [factor, zero] = units[symbol]!;
  return (difference ? si : si - zero) / factor;
}

/**
 * The power of ten to end at: the largest, not above twice the author's last step, at which the number shown still lies
 * within half a step of the one written. So whoever turns it back and rounds it as the author did has what was written.
 */
function end(figure: Figure, symbol: string): number {
  const step = figure.step / units[symbol]![0];
  let last = Math.floor(Math.log10(2 * step) + 1e-9);
  const number = inUnit(figure, symbol);
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
  return (last < 0 ? count / 10 ** -last : count * 10 ** last).toLocaleString("en", { minimumFractionDigits: places, maximumFractionDigits: places });
}

function raised(power: number): string {
  return [...String(power)].map((sign) => (sign === "-" ? "⁻" : "⁰¹²³⁴⁵⁶⁷⁸⁹"[Number(sign)])).join("");
}

/** Numbers as pages show them, each with what is behind ± if it has that, and a unit that can be switched. A kelvin may be a difference. */
const QUANTITY = new RegExp(
  `(?<![\\p{L}\\d.,/-])((?:±\\s)?)([-−]?[\\d,]+(?:\\.\\d+)?)((?:\\s±\\s[\\d.]+)?)\\s(?!K)(${Object.keys(units).join("|")})(?![\\p{L}\\d/·²³])`,
  "gu",
);

/** Rewrites the quantities of a text that was never marked: in a picture; or exactly in an entry, whose noughts
 * all count, with a figure more so that the answer stays. */
export function rewriteAll(text: string, choice: Choice, exact = false): string {
  return text.replace(QUANTITY, (own: string, lead: string, number: string, spread: string, symbol: string) => {
    const kind = kindOf(symbol);
    const [factor, zero] = units[symbol]!;
    const more = spread.slice(3);
    const steps = [lead, stepOf(number, exact) * factor, ...(more && [" ± ", stepOf(more, exact) * factor]), ""].join("|");
    const value = (lead ? 0 : zero) + amount(number) * factor + (more && ` ${amount(more) * factor}`);
    return rewrite({ kind, value, steps, text: own }, choice) ?? own;
  });
}

export function kindOf(symbol: string): string {
  return Object.keys(kinds).find((kind) => kinds[kind]!.some((units, i) => i && units.split(" ").includes(symbol))) ?? "";
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
