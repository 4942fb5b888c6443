// The words of the fault model, read from the page, where they stand for those without scripts too.

export interface Finding {
  ask: string;
  answers: Map<string, string>;
  valued: boolean;
  unit: string;
  by: Element | null; // leads to the calculator that gives it
  when: [finding: string, answers: string[]][];
}

export interface Step {
  name: string;
  title: string;
  tells: string[];
  part: HTMLElement;
}

export interface Words {
  findings: Map<string, Finding>;
  steps: Map<string, Step>;
  stops: Map<string, HTMLElement>;
  tools: Set<string>;
}

export function readWords(main: HTMLElement): Words {
  const all = (css: string, from = main) => [...from.querySelectorAll<HTMLElement>(css)];
  return {
    findings: new Map(all("[data-finding]").map((part) => [part.dataset.finding!, finding(part, all("[data-answer]", part))])),
    steps: new Map(all("[data-test], [data-repair]").map((part) => {
      const name = part.dataset.test ?? part.dataset.repair!;
      return [name, { name, title: text(part, "h3"), tells: items(part.dataset.tells), part }];
    })),
    stops: new Map(all("[data-stop]").map((part) => [part.dataset.stop!, part])),
    tools: new Set(all("input[name=tool]").map((part) => (part as HTMLInputElement).value)),
  };
}

function finding(part: HTMLElement, answers: HTMLElement[]): Finding {
  return {
    ask: text(part, ".ask"),
    answers: new Map(answers.map((answer) => [answer.dataset.answer!, text(answer, "b")])),
    valued: part.dataset.unit !== undefined,
    unit: part.dataset.unit ?? "",
    by: part.querySelector(".guide"),
    when: items(part.dataset.when).map((guard) => {
      const [name = "", list = ""] = guard.split("=");
      return [name, list.split(",")];
    }),
  };
}

export function text(part: HTMLElement, css: string): string {
  return part.querySelector(css)?.textContent ?? "";
}

function items(list = ""): string[] {
  return list.split(" ").filter(Boolean);
}
