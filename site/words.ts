// The words of the fault model, read from the sheet that holds the whole order, where they stand for those without scripts.
import { fetchPage } from "./fetched";

export interface Finding {
  ask: string;
  answers: Map<string, string>;
  valued: boolean;
  part: HTMLElement;
}

export interface Words {
  findings: Map<string, Finding>;
  steps: Map<string, { who: string; part: HTMLElement }>;
  stops: Map<string, HTMLElement>;
  tools: Set<string>;
  sheet: Document;
  model: string; // address of the fault model, for the calculators
}

/** Tools are at hand, or not, on the page itself. */
export async function fetchWords(page: HTMLElement): Promise<Words> {
  const sheet = await fetchPage(page.dataset.sheet!);
  // What is shown on the page leads where it led on the sheet, which lies one folder deeper.
  for (const link of sheet.links) link.href = link.getAttribute("href")!.replace("../", "");
  const named = <Kind>(kind: string, of: (part: HTMLElement) => Kind, from: ParentNode = sheet) =>
    new Map([...from.querySelectorAll<HTMLElement>(`[data-${kind}]`)].map((part) => [part.dataset[kind]!, of(part)]));
  return {
    findings: named("finding", (part) => ({ ask: text(part, ".ask"), answers: named("answer", (answer) => text(answer, "b"), part), valued: "unit" in part.dataset, part })),
    steps: named("step", (part) => ({ who: part.dataset.who!, part })),
    stops: named("stop", (part) => part),
    tools: new Set([...page.querySelectorAll<HTMLInputElement>("[name=tool]")].map(({ value }) => value)),
    sheet,
    model: page.dataset.model!,
  };
}

export function titleOf(step: string, { steps }: Words): string {
  return text(steps.get(step)!.part, "h3");
}

export function text(part: ParentNode, css: string): string {
  return part.querySelector(css)?.textContent ?? "";
}
