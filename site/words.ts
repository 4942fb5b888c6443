// The words of the fault model, read from the sheet that holds the whole order, where they stand for those without scripts.

export interface Finding {
  ask: string;
  answers: Map<string, string>;
  valued: boolean;
  unit: string;
  when: [finding: string, answers: string[]][];
  part: HTMLElement;
}

export interface Step {
  name: string;
  title: string;
  tells: string[];
  who: string[];
  part: HTMLElement;
}

export interface Words {
  findings: Map<string, Finding>;
  steps: Map<string, Step>;
  stops: Map<string, HTMLElement>;
  hazards: Map<string, HTMLElement>;
  tools: Set<string>;
  safe: HTMLElement;
}

/** Tools are at hand, or not, on the page itself. */
export async function fetchWords(address: string, page: HTMLElement): Promise<Words> {
  const sheet = new DOMParser().parseFromString(await fetchText(address), "text/html");
  const base = new URL(address, location.href);
  // What is shown on the page leads where it led on the sheet.
  for (const link of sheet.querySelectorAll("a")) link.href = new URL(link.getAttribute("href")!, base).href;
  return readWords(sheet.querySelector("main")!, page);
}

function readWords(sheet: HTMLElement, page: HTMLElement): Words {
  const all = (css: string, from = sheet) => [...from.querySelectorAll<HTMLElement>(css)];
  return {
    findings: new Map(all("[data-finding]").map((part) => [part.dataset.finding!, finding(part, all("[data-answer]", part))])),
    steps: new Map(all("[data-test], [data-repair]").map((part) => {
      const name = part.dataset.test ?? part.dataset.repair!;
      return [name, { name, title: text(part, "h3"), tells: items(part.dataset.tells), who: items(part.dataset.who), part }];
    })),
    stops: new Map(all("[data-stop]").map((part) => [part.dataset.stop!, part])),
    hazards: new Map(all("[data-hazard]").map((part) => [part.dataset.hazard!, part.querySelector<HTMLElement>(".hazard")!])),
    tools: new Set(all("input[name=tool]", page).map((part) => (part as HTMLInputElement).value)),
    safe: sheet.querySelector<HTMLElement>(".safe")!,
  };
}

function finding(part: HTMLElement, answers: HTMLElement[]): Finding {
  return {
    ask: text(part, ".ask"),
    answers: new Map(answers.map((answer) => [answer.dataset.answer!, text(answer, "b")])),
    valued: part.dataset.unit !== undefined,
    unit: part.dataset.unit ?? "",
    when: items(part.dataset.when).map((guard) => {
      const [name = "", list = ""] = guard.split("=");
      return [name, list.split(",")];
    }),
    part,
  };
}

export async function fetchText(address: string): Promise<string> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`The fault model is not there (${response.status}).`);
  return response.text();
}

export function text(part: HTMLElement, css: string): string {
  return part.querySelector(css)?.textContent ?? "";
}

function items(list = ""): string[] {
  return list.split(" ").filter(Boolean);
}
