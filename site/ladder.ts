// Moves the mark on the pressure ladder to the pressure being read, or being typed.
/** The part of the window, from its top, where a reader's eyes rest. */
const READING_LINE = 0.4;

/** Moves the mark to a pressure in Pa; nothing happens for 0. */
export type Show = (pressure: number) => void;

interface Scale {
  svg: SVGSVGElement;
  upright: boolean;
  top: number; // Pa
  bottom: number;
  from: number; // along the axis
  to: number;
}

/** Gives what moves the mark, for those who know of another pressure than the text's. */
export function startLadder(): Show {
  const scales = [...document.querySelectorAll<SVGSVGElement>(".ladder svg")].flatMap(readScale);
  const show = (pressure: number) => {
    if (pressure > 0) for (const scale of scales) move(scale, pressure);
  };
  if (scales.length) followText(show);
  return show;
}

function readScale(svg: SVGSVGElement): Scale[] {
  const axis = svg.querySelector<SVGPathElement>(".axis");
  if (!axis) return [];
  const [top, bottom, from, to] = ["top", "bottom", "from", "to"].map((name) => Number(axis.dataset[name])) as [number, number, number, number];
  return [{ svg, upright: svg.classList.contains("tall"), top, bottom, from, to }];
}

/** The scale is logarithmic; what lies beyond its ends stays at them. */
function move({ svg, upright, top, bottom, from, to }: Scale, pressure: number): void {
  const share = Math.log(top / pressure) / Math.log(top / bottom);
  const at = (from + (to - from) * Math.min(1, Math.max(0, share))).toFixed(1);
  // Other units write the drawing anew, and the mark with it.
  svg.querySelector("g.cursor")?.setAttribute("transform", upright ? `translate(0 ${at})` : `translate(${at} 0)`);
}

/** Looks for the pressure at the reading line, at most once a frame. */
function followText(show: Show): void {
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
