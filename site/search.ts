// The search page: what is typed stands behind the # of the address, so that going back brings the list again. The index is
// fetched here and nowhere else; where a word stands is read from the page itself, which a saved edition has at hand.
import { make } from "./make";
import { literal, read, type Found, type Index } from "./find";
import { fetchInflated, fetchPage } from "./fetched";

/** More than these nobody looks through: another word helps more. */
const SHOWN = 12;
/** So long nobody types before the address is written and a screen reader says how many there are, in ms. */
const PAUSE = 400;

export function startSearch(main: HTMLElement): void {
  const part = <E extends HTMLElement>(css: string) => main.querySelector<E>(css)!;
  const form = part<HTMLFormElement>("form");
  const field = part<HTMLInputElement>("input");
  const status = part("[role=status]");
  const list = part(".found");
  let index: Index | undefined;
  let later = 0;

  const show = () => {
    const typed = field.value.trim();
    const [found, misspelt] = index && typed ? index.ask(typed) : [[], []];
    const items = found.slice(0, SHOWN).map((one) => item(part<HTMLTemplateElement>("template"), one));
    list.replaceChildren(...items);
    clearTimeout(later);
    later = window.setTimeout(() => {
      history.replaceState(null, "", "#" + encodeURIComponent(typed));
      field.defaultValue = typed; // to which WebKit sets the field when a reader comes back
      if (!index) return;
      status.textContent = typed && told(found.length, misspelt);
      // Without its line a title leads there all the same.
      items.forEach((element, i) => void place(index!, found[i]!, element).catch(console.error));
    }, PAUSE);
  };
  const take = () => {
    field.value = written();
    show();
  };

  form.hidden = false;
  field.addEventListener("input", show);
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    list.querySelector("a")?.focus();
  });
  main.addEventListener("keydown", (event) => {
    const stops: (Element | null)[] = [field, ...list.querySelectorAll("a")];
    const at = stops.indexOf(document.activeElement);
    const next = stops[at + ({ ArrowDown: 1, ArrowUp: -1 }[event.key] ?? NaN)] as HTMLElement | undefined;
    if (at < 0 || !next) return;
    event.preventDefault();
    next.focus();
  });
  addEventListener("hashchange", take);
  take();
  field.focus();
  fetchInflated(main.dataset.index!).then((bytes) => {
    index = read(new Uint8Array(bytes));
    show();
  }).catch((cause: unknown) => {
    console.error(cause);
    status.textContent = "The search did not load. All pages stand below.";
  });
}

/** What the address says was typed. Anybody may have written it: it becomes the text of the field and nothing else. */
function written(): string {
  return new URLSearchParams(location.hash.replace("#", "typed=")).get("typed") ?? "";
}

function told(count: number, misspelt: string[]): string {
  const all = `${count} page${count === 1 ? "" : "s"}${count > SHOWN ? `, the first ${SHOWN} shown` : ""}`;
  return misspelt.length ? `${all}, with words almost like ${misspelt.join(" and ")}` : all;
}

function item(template: HTMLTemplateElement, [address, title, kind]: Found): HTMLElement {
  const element = template.content.firstElementChild!.cloneNode(true) as HTMLElement;
  const link = element.querySelector("a")!;
  link.href = "../" + address;
  link.textContent = title;
  element.querySelector(".notes")!.textContent = kind;
  return element;
}

const pages: Record<string, Promise<Document>> = {};

/** By the name of its file, under which a saved edition has it. */
async function readPage(address: string): Promise<Document> {
  const page = await fetchPage(address + "index.html");
  for (const part of page.querySelectorAll("td, th, span")) part.before(" "); // cells of a row are words of their own
  return page;
}

const BLOCKS = "p, li, dt, dd, tr, h2, h3";
const TEXT = `main :is(${BLOCKS}):not(.foot, :is(nav, form, .hazard, .facts, .entries, .sign, .answer) *)`;

/** Says where on its page a result stands: a line of the text, and the section or step, to which it then leads. */
async function place(index: Index, [address, , kind, terms]: Found, element: HTMLElement): Promise<void> {
  const link = element.querySelector("a")!;
  const page = await (pages[address] ??= readPage(link.pathname));
  const blocks = [...page.querySelectorAll(TEXT)].filter((block) => !block.querySelector(BLOCKS));
  // A stem begins its words, and a hyphen may stand in them.
  const wanted = [...terms].map((term) => "(?<![\\p{L}\\d])" + [...term].join("[-‑]?") + "\\p{L}*");
  for (const data of page.querySelectorAll("data")) {
    for (const term of terms) if (data.value.split(" ").some((si) => +term.slice(2) === Math.round(index.range(term[1]!, +si)))) wanted.push(literal(textOf(data)));
  }
  const pattern = new RegExp(`(${wanted.join("|")})`, "giu");
  const has = (block: Element) => new Set(textOf(block).toLowerCase().match(pattern)).size;
  const best = blocks.map((block): [number, Element] => [has(block), block]).reduce((a, b) => (b[0] > a[0] ? b : a))[1];
  const part = best.closest("li.step, section.part");
  if (part) link.hash = part.id;
  const text = textOf(best);
  const from = text.lastIndexOf(" ", text.search(pattern) - 50) + 1;
  const pieces = ((from ? "… " : "") + text.slice(from)).split(pattern);
  element.querySelector(".line")!.replaceChildren(...pieces.map((piece, i) => (i % 2 ? Object.assign(make("mark", ""), { textContent: piece }) : piece)));
  const where = part?.querySelector("h2")?.textContent ?? part?.id.replace("-", " ");
  if (where) element.querySelector(".notes")!.textContent = `${kind} · ${where}`;
}

function textOf(block: Element): string {
  return block.textContent!.replace(/\s+/g, " ").trim();
}
