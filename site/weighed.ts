// What is believed, and what each answer weighs, as bars with words and numbers. The words are the calculators'.
import { make } from "./make";
import { key } from "./asks";
import type { Answer, Given } from "./host";

/** A weight of so many tenths of a ban fills half of its bar: odds a hundred times as high. */
const FULL = 20;

/** Cells as the page puts them down; those that are numbers are reckoned with by Number alone. */
export function rowsOf(given: Given | undefined): string[][] {
  return (given?.rows ?? []) as string[][];
}

function scale(share: number, side = ""): HTMLElement {
  const full = make("i", `bar ${side}`);
  full.style.width = `${Math.min(100 * share, 100)}%`;
  return make("span", "scale", full);
}

function bar([name, title, share, , how]: string[]): HTMLElement {
  const line = make("li", "", make("span", "what", title!), make("span", "how", how!), scale(Number(share)));
  line.dataset.cause = name;
  return line;
}

/** What leads, for the place above the question. */
export function leading({ out }: Answer): Node[] {
  return rowsOf(out?.causes).slice(0, 1).flatMap(([, title, share, , how]) => [make("span", "leads", `Most likely: ${title} (${how}).`), scale(Number(share))]);
}

/** Fills the place of the belief, whose headings stand in the page. */
export function showBelief({ out, verdict, cautions }: Answer, place: HTMLElement): void {
  const fill = (css: string, ...parts: (Node | string)[]) => place.querySelector(css)!.replaceChildren(...parts);
  const groups = rowsOf(out?.groups).slice(0, 4);
  const turns = rowsOf(out?.turns).map(([, , , , ask, said, then]) => make("li", "", `${ask} ${said} `, make("b", "", then!)));
  fill(".so-far", verdict?.text ?? "");
  fill(".causes", ...rowsOf(out?.causes).slice(0, 5).map(bar));
  fill(".group", groups[0] ? `: ${groups[0][0]} (${groups[0][2]})` : "");
  fill(".groups", ...groups.map(([title, share, how]) => bar(["", title!, share!, "", how!])));
  fill(".turns ul", ...turns);
  fill(".minded", ...(cautions ?? []).map((line) => make("li", "", line)));
}

/** Lines that a tap changes: the answers, and what was done. */
export function givenLines(heard: string[][], done: string[][]): Node[] {
  const line = (act: string, name: string, ask: string, said: string, ...more: Node[]) => make("li", "", key(act, name, "said", make("span", "ask", ask), make("b", "", said), ...more));
  return [
    ...heard.map(([name, , bans, , sentence, ask, said, recheck]) =>
      line("edit", name!, ask!, said!, make("span", "how", sentence!), scale(Math.abs(Number(bans)) / FULL / 2, Number(bans) < 0 ? "against" : "for"), make("strong", "recheck", recheck!)),
    ),
    ...done.map(([name, title, said]) => line("undo", name!, title!, said!)),
  ];
}
