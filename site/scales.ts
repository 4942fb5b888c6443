// Puts ladders and published pictures into the units of choice: the numbers on their axes anew, at round places, and the
// quantities in their words. What calculators draw, they draw anew themselves.
import { units } from "./choices";
import { scaleOf } from "./ladder";
import { amount, decimal, kindOf, rewriteAll, unitsFor, zeroOf, type Choice } from "./rewrite";

/** Pictures as they were published: what stands in them, and what they say of themselves. */
const published = new Map<SVGSVGElement, [html: string, label: string | null]>();

export function picturesIn(choice: Choice): void {
  for (const svg of document.querySelectorAll<SVGSVGElement>(".ladder svg, svg.drawn")) {
    if (svg.closest(".answer")) continue;
    const [html, label] = published.get(svg) ?? [svg.innerHTML, svg.ariaLabel];
    published.set(svg, [html, label]);
    svg.innerHTML = html;
    svg.ariaLabel = label && rewriteAll(label, choice);
    for (const part of svg.querySelectorAll("text, tspan, title, desc")) {
      if (!part.childElementCount) part.textContent = rewriteAll(part.textContent!, choice);
    }
    const axis = svg.querySelector<SVGPathElement>(".axis");
    if (axis) numberLadder(svg, axis, choice);
    else if (svg.querySelector(".grid")) numberPlot(svg, choice);
  }
  dispatchEvent(new Event("resize")); // the mark on a ladder is put where it was
}

/** The unit for an axis that is written in another one. */
function axisUnit(own: string, choice: Choice): string | undefined {
  return unitsFor(kindOf(own), choice).at(-1)?.[0];
}

/** Sets numbers along an axis in place of those that are there, each as the text that it becomes and its place. */
function setNumbers(old: Element[], along: string, numbers: [text: string, at: number][]): void {
  for (const [text, at] of numbers) {
    const one = old[0]!.cloneNode() as Element;
    one.setAttribute(along, at.toFixed(1));
    one.textContent = text;
    old[0]!.before(one);
  }
  for (const one of old) one.remove();
}

/** Powers of ten in the unit, and lines at 2 to 9 times, as build/ladder/decade.go sets them. */
function numberLadder(svg: SVGSVGElement, axis: SVGPathElement, choice: Choice): void {
  const unit = svg.querySelector(".unit")!;
  const symbol = axisUnit(unit.textContent!, choice);
  if (!symbol) return;
  unit.textContent = symbol;
  const factor = units[symbol]!;
  const { top, bottom, from, to, at: place } = scaleOf(axis);
  const d = axis.getAttribute("d")!;
  const upright = d.includes("V");
  const across = d.match(/[\d.]+/g)![upright ? 0 : 1];
  const lines = ["", ""];
  const numbers: [string, number][] = [];
  let room = 336; // for numbers side by side, from the right
  for (let power = Math.floor(Math.log10(bottom / factor)); 10 ** power * factor < top; power++) {
    for (let times = 1; times < 10; times++) {
      const at = place(times * 10 ** power * factor);
      if (at < from - 0.1 || at > to + 0.1) continue;
      const long = times > 1 ? 0 : 1;
      lines[long] += upright ? `M${across} ${at.toFixed(1)}h${-5 - 5 * long}` : `M${at.toFixed(1)} ${across}v${4 + 4 * long}`;
      const text = decimal(10 ** power, power);
      const half = text.length * 3.6;
      const middle = Math.min(at, room - half);
      if (long && upright) numbers.push([text, at + 4.2]);
      else if (long && at - middle < half && middle - half > symbol.length * 6.6) {
        numbers.push([text, middle]);
        room = middle - half - 4;
      }
    }
  }
  setNumbers([...svg.querySelectorAll(".number")], upright ? "y" : "x", numbers);
  ["tick", "decade"].forEach((name, i) => svg.querySelector("." + name)!.setAttribute("d", lines[i]!));
}

/** How far below its line a number stands, as calc/plot/draw.go sets it. */
const BELOW = 4.5;

/** The upright axis of a plot. Its scale follows from its numbers: even, or logarithmic if one does not lie between others so. */
function numberPlot(svg: SVGSVGElement, choice: Choice): void {
  const [head, grid, frame] = ["text", ".grid", "path:not([class])"].map((css) => svg.querySelector(css)!) as [Element, Element, Element];
  const [label, own] = head.textContent!.split(", ");
  const symbol = axisUnit(own!, choice);
  if (!symbol) return;
  head.textContent = `${label}, ${symbol}`;
  const [left, top, bottom, right] = frame.getAttribute("d")!.match(/[\d.]+/g)!.map(Number) as [number, number, number, number];
  const old = [...svg.querySelectorAll("text[text-anchor=end]")];
  const points = old.map((one): [number, number] => [(amount(one.textContent!) * units[own!]! + zeroOf(own!) - zeroOf(symbol)) / units[symbol]!, +one.getAttribute("y")! - BELOW]);
  const [[v0, y0], [v1, y1]] = [points[0]!, points.at(-1)!];
  const isEven = points.every(([v, y]) => Math.abs(y0 + ((y1 - y0) * (v - v0)) / (v1 - v0) - y) < 1);
  const [a, b] = isEven ? [v0, v1] : [Math.log10(v0), Math.log10(v1)];
  const [low, high] = [bottom, top].map((y) => a + ((b - a) * (y - y0)) / (y1 - y0)) as [number, number];
  const power = isEven ? Math.floor(Math.log10((high - low) / 6)) : 0;
  const step = 10 ** power * (isEven ? [1, 2, 5, 10].find((times) => (high - low) / times <= 6.01 * 10 ** power)! : 1);
  const numbers: [string, number][] = [];
  let lines = grid.getAttribute("d")!.replace(/M[\d.]+ [\d.]+[Hh][\d.]+/g, "");
  for (let n = Math.ceil(low / step - 1e-3); n <= high / step + 1e-3; n++) {
    const y = y0 + ((y1 - y0) * (n * step - a)) / (b - a);
    const number = isEven ? n * step : 10 ** n;
    numbers.push([decimal(number, Math.floor(Math.log10(isEven ? step : number) + 1e-9)), y + BELOW]);
    lines += `M${left} ${y.toFixed(1)}H${right}`;
  }
  setNumbers(old, "y", numbers);
  grid.setAttribute("d", lines);
}
