// Opens the guide that an 'if not' leads to in place, under its step, so that the way back is one look away. A long
// press, another tab and a page without scripts follow the link as always.
import { make } from "./make";
import { fetchPage } from "./fetched";
import { button } from "./key";
import { on } from "./on";
import { home, pageOf } from "./place";
import { guides, thisPage } from "./work";
import { startYours } from "./yours";

type Started = (part: HTMLElement, page: string) => void;

export function openBranches(main: HTMLElement, started: Started): void {
  on<HTMLAnchorElement>(main, "click", ".if-not a[href]", (link, event) => {
    const { ctrlKey, metaKey, shiftKey } = event as MouseEvent;
    if (event.defaultPrevented || ctrlKey || metaKey || shiftKey) return;
    const page = pageOf(link.pathname);
    // Guides of this site only: a list, or a calculator's own page, is better off alone.
    if (!link.href.startsWith(home.href) || page === thisPage || !/^(procedures|symptoms|pages)\/[^/]+\/$/.test(page)) return;
    event.preventDefault();
    open(link, page, started).catch(() => location.assign(link.href));
  });
}

let count = 0;

async function open(link: HTMLAnchorElement, page: string, started: Started): Promise<void> {
  const place = link.closest(".if-not")!;
  const old = place.parentElement!.querySelector(`:scope > .branch[data-page="${page}"]`);
  if (old) return old.scrollIntoView();
  const from = (await fetchPage(link.href)).querySelector("main")!;
  const branch = brought(from, link.href, page);
  const close = () => {
    branch.remove();
    guides.delete(page);
    link.scrollIntoView();
    link.focus({ preventScroll: true });
  };
  const title = make("h3", "branch-title", from.querySelector("h1")?.textContent ?? "");
  const hazards = branch.querySelector(".hazards");
  if (hazards) hazards.ariaLabel = "Hazards of " + title.textContent;
  title.tabIndex = -1;
  branch.prepend(title);
  branch.append(button("Back to the step", close));
  place.after(branch);
  // Its calculators and units come to life as those of the page did, with the reader's machine, before what was kept is filled in.
  document.dispatchEvent(new CustomEvent("brought", { detail: branch }));
  if (branch.querySelector("select.machine")) await startYours(branch);
  guides.set(page, branch);
  started(branch, page);
  const part = link.hash ? branch.querySelector(`[data-place="${CSS.escape(link.hash.slice(1))}"]`) : undefined;
  (part ?? branch).scrollIntoView();
  title.focus({ preventScroll: true });
}

/** The text of the guide, hazards first, under names of its own and with addresses that hold here. */
function brought(from: HTMLElement, address: string, page: string): HTMLElement {
  const before = `b${++count}-`;
  const branch = make("section", "branch");
  Object.assign(branch.dataset, from.dataset, { page });
  branch.append(...[...from.children].filter((part) => !part.matches("h1, .sign, .work-end, .hand, template")));
  for (const part of branch.querySelectorAll<HTMLElement>("[id]")) {
    part.dataset.place = part.id;
    part.id = before + part.id;
  }
  for (const name of ["for", "aria-describedby", "aria-labelledby"]) {
    for (const part of branch.querySelectorAll(`[${name}]`)) part.setAttribute(name, part.getAttribute(name)!.replace(/\S+/g, before + "$&"));
  }
  for (const name of ["href", "src"]) {
    for (const part of branch.querySelectorAll(`:is(a, img, link)[${name}]`)) {
      const text = part.getAttribute(name)!;
      part.setAttribute(name, text.startsWith("#") ? "#" + before + text.slice(1) : new URL(text, address).href);
    }
  }
  for (const heading of branch.querySelectorAll("h2")) heading.replaceWith(make("h4", "", ...heading.childNodes));
  return branch;
}
