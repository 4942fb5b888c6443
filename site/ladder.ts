// Moves the mark on the pressure ladder to the pressure being read, or being typed.
/** The part of the window, from its top, where a reader's eyes rest. */
const READING_LINE = 0.4;

/** Moves the mark to a pressure in Pa; nothing happens for 0. */
export type Show = (pressure: number) => void;

/** The logarithmic scale of a ladder: its ends in Pa and along its axis, and the place of a pressure there. */
interface Scale {
  top: number;
  bottom: number;
  from: number;
  to: number;
  at(pressure: number): number;
}

function scaleOf(axis: SVGElement): Scale {
  const [top, bottom, from, to] = ["top", "bottom", "from", "to"].map((name) => Number(axis.dataset[name])) as [number, number, number, number];
  return { top, bottom, from, to, at: (pressure) => from + ((to - from) * Math.log(top / pressure)) / Math.log(top / bottom) };
}

/** Gives what moves the mark, for those who know of another pressure than the text's. */
export function startLadder(): Show {
  if (document.querySelector(".ladder")) followText();
  return show;
}

/** What lies beyond the ends of a scale stays at them. Other units write the drawings anew, so they are looked up each time. */
function show(pressure: number): void {
  if (!(pressure > 0)) return;
  for (const axis of document.querySelectorAll<SVGElement>(".ladder .axis")) {
    const { top, bottom, at } = scaleOf(axis);
    const svg = axis.closest("svg")!;
    const place = at(Math.min(top, Math.max(bottom, pressure))).toFixed(1);
    svg.querySelector("g.cursor")?.setAttribute("transform", `translate(${svg.matches(".tall") ? "0 " + place : place + " 0"})`);
  }
}

/** Looks for the pressure at the reading line, at most once a frame. */
function followText(): void {
  const facts = document.querySelectorAll<HTMLDataElement>("main data[data-kind=pressure]");
  let planned = false;
  const plan = () => {
    if (planned || !facts.length) return;
    planned = true;
    requestAnimationFrame(() => {
      planned = false;
      show(nearest(facts));
    });
  };
  addEventListener("scroll", plan, { passive: true });
  addEventListener("resize", plan, { passive: true });
  plan();
}

/** The pressure (Pa) whose text stands nearest to the reading line; 0 when none is in the window. */
function nearest(facts: Iterable<HTMLDataElement>): number {
  let best = innerHeight;
  let pressure = 0;
  for (const fact of facts) {
    const { top, bottom } = fact.getBoundingClientRect();
    const away = Math.abs((top + bottom) / 2 - innerHeight * READING_LINE);
    if (away < best && bottom > 0 && top < innerHeight && bottom > top) {
      best = away;
      pressure = parseFloat(fact.value); // of a range or a list, the first
    }
  }
  return pressure;
}
