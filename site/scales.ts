// Puts ladders and published pictures into the units of choice. Each was drawn in all of them when the site was published
// (build/render/scales.go); what calculators draw, they draw anew themselves.
import { scales } from "./choices";
import { rewriteAll, type Choice } from "./rewrite";

/** Pictures as they were published: what stands in them, and what they say of themselves. */
const published = new Map<SVGSVGElement, [html: string, label: string | null]>();

export function picturesIn(choice: Choice): void {
  for (const svg of document.querySelectorAll<SVGSVGElement>(".ladder svg, svg.drawn")) {
    if (svg.closest(".answer")) continue;
    const [html, label] = published.get(svg) ?? [svg.innerHTML, svg.ariaLabel];
    published.set(svg, [html, label]);
    svg.innerHTML = html;
    svg.ariaLabel = label && rewriteAll(label, choice);
    // A ladder is known by its axis, and its numbers are a part of it.
    const drawn = scales[svg.dataset.scale ?? Object.values(svg.querySelector<SVGElement>(".axis")?.dataset ?? {}).join(" ")];
    const anew = Object.values(choice).map((unit) => drawn?.[unit]).find(Boolean);
    if (anew) (svg.querySelector(".scale") ?? svg).innerHTML = anew;
    for (const part of svg.querySelectorAll("text, tspan, title, desc")) {
      if (!part.childElementCount) part.textContent = rewriteAll(part.textContent!, choice);
    }
  }
  dispatchEvent(new Event("resize")); // the mark on a ladder is put where it was
}
