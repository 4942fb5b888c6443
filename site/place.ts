/** From this page to the root of the site. */
export const root = document.documentElement.dataset.root || "./";
export const home = new URL(root, location.href);

/** The page's name below the root of the site: procedures/rise-test/. */
export function pageOf(path: string): string {
  return path.slice(home.pathname.length).replace(/index\.html$/, "");
}

/** What belongs to a part of the page, and to no guide that was opened within it. */
export function own<Kind extends HTMLElement = HTMLElement>(part: HTMLElement, css: string): Kind[] {
  return [...part.querySelectorAll<Kind>(css)].filter((one) => one.closest(".branch, main") === part);
}

/** A copy of what a part of the page keeps ready in its first template. */
export function piece(css: string, part: ParentNode = document): HTMLElement {
  return part.querySelector("template")!.content.querySelector(css)!.cloneNode(true) as HTMLElement;
}

/** Units by kind, where the reader chose some (units.ts). */
export function chosenUnits(): Record<string, string> | undefined {
  const { units } = document.documentElement.dataset;
  return units && JSON.parse(units);
}

/** What a calculator is called. */
export function calledOf(block: HTMLElement): string {
  return block.ariaLabel!.replace(/^.*?: /, "");
}

/** The place of a part on its own page, also where that was opened in another one. */
export function placeOf(part: HTMLElement): string {
  return part.dataset.place ?? part.id;
}
