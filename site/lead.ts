import { root } from "./place";
import { nextOf } from "./standing";
import { thisPage, type Entry } from "./work";

/** Makes a link lead to where the work goes on. */
export function leadOn(link: HTMLAnchorElement, all: Entry[]): void {
  const next = nextOf(all);
  const isHere = next?.page === thisPage;
  link.hidden = !next || (isHere && !next.step);
  if (!next) return;
  const { page, place, title, step, of } = next;
  link.textContent = "Go on: " + (isHere ? `step ${step} of ${of}` : title + (step ? `, step ${step}` : ""));
  link.href = `${root}${page}#${place}`;
}

