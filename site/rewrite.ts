// Writes a quantity of the page in another unit, no finer than its author wrote it. Nothing here knows the page: what it
// takes is the attributes that build/render/quantities.go wrote.
import type { Unit } from "./choices";

/** A quantity as its element holds it. */
export interface Written {
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

/** The quantity in the unit that suits it; nothing where its author used one of these units. */
export function rewrite(written: Written, units: Unit[]): string | undefined {
  const [figures, tail] = read(written);
  const own = written.text.replace(/\s/g, " ").replace(/ (gauge|absolute)$/, "");
  if (units.some(({ symbol }) => endsWith(own, symbol))) return undefined;
  const unit = suiting(figures, units);
  const ends = figures.map((figure) => end(figure, unit));
  let text = "";
  for (const figure of figures) {
    // Both ends of a range that was written to one step end at one place.
    const last = Math.min(...ends.filter((_, i) => figures[i]!.step === figure.step));
    const number = decimal(Number(inUnit(figure, unit).toPrecision(12)), last);
    // Behind a dash, a minus would be lost on a reader.
    const before = number.startsWith("−") ? figure.before.replace(/^\s*[-–—]\s*$/, " to ") : figure.before;
    text += before + number;
  }
  const joint = /\d-\p{L}/u.test(own) ? "-" : HOLD;
  const anew = text + joint + unit.symbol + tail;
  return anew.replaceAll(HOLD, " ") === written.text.replace(/\s/g, " ") ? undefined : anew.replaceAll(" ± ", `${HOLD}±${HOLD}`);
}

function endsWith(text: string, symbol: string): boolean {
  return text.endsWith(symbol) && !/\p{L}/u.test(text.slice(0, -symbol.length).slice(-1));
}

function read({ value, steps }: Written): [Figure[], string] {
  const values = value.split(" ").map(Number);
  const parts = steps.includes("|") ? steps.split("|") : ["", steps, ""];
  const figures = values.map((si, i) => {
    const before = parts[2 * i] ?? "";
    return { before, si, step: Number(parts[2 * i + 1]), difference: before.includes("±") };
  });
  return [figures, parts[2 * values.length] ?? ""];
}

/** The first unit in which the largest number is not too small; the last one suits all. */
function suiting(figures: Figure[], units: Unit[]): Unit {
  const fits = (unit: Unit) => figures.some((figure) => Math.abs(inUnit(figure, unit)) >= unit.least * (1 - 1e-9));
  return units.find(fits) ?? units[units.length - 1]!;
}

function inUnit({ si, difference }: Figure, unit: Unit): number {
  return (difference ? si : si - unit.zero) / unit.factor;
}

/**
 * The power of ten to end at: the largest, not above twice the author's last step, at which the number shown still lies
 * within half a step of the one written. So whoever turns it back and rounds it as the author did has what was written.
 */
function end(figure: Figure, unit: Unit): number {
  const step = figure.step / unit.factor;
  let last = Math.floor(Math.log10(2 * step) + 1e-9);
  const number = inUnit(figure, unit);
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
  const count = Math.round(Number((size / 10 ** last).toPrecision(12)));
  const digits = last > 0 ? String(count * 10 ** last) : String(count).padStart(1 - last, "0");
  const point = digits.length + Math.min(last, 0);
  const grouped = digits.slice(0, point).replace(/\B(?=(\d{3})+$)/g, ",");
  return last < 0 ? `${grouped}.${digits.slice(point)}` : grouped;
}

function raised(power: number): string {
  return [...String(power)].map((sign) => (sign === "-" ? "⁻" : "⁰¹²³⁴⁵⁶⁷⁸⁹"[Number(sign)])).join("");
}
