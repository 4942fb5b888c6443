import { make } from "./answer";

/** A button with a word on it; kind is its class. */
export function button(label: string, act: (key: HTMLButtonElement) => void, kind = ""): HTMLButtonElement {
  const key = make("button", kind, label) as HTMLButtonElement;
  key.type = "button";
  key.addEventListener("click", () => act(key));
  return key;
}

/** Does what the keys of a part say (data-do). A question that stands folded on the page is folded again by either of its keys. */
export function follow(part: HTMLElement, acts: Record<string, () => unknown>): void {
  part.addEventListener("click", (event) => {
    const key = (event.target as Element).closest("button");
    const question = key?.closest("details.asking");
    if (question instanceof HTMLDetailsElement) {
      question.open = false;
      question.querySelector("summary")?.focus();
    }
    acts[key?.dataset.do ?? ""]?.();
  });
}
