import { make } from "./answer";

/** A button with a word on it; kind is its class. */
export function button(label: string, act: (key: HTMLButtonElement) => unknown, kind = ""): HTMLButtonElement {
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

/** Longer addresses are cut by some programs on their way. */
export const LONGEST = 8000;

/** A button that copies what stands in a field. */
export function copyOf(field: HTMLTextAreaElement): HTMLButtonElement {
  return button("Copy", async (key) => {
    try {
      await navigator.clipboard.writeText(field.value);
      key.textContent = "Copied";
    } catch {
      field.select(); // refused, as on plain http: the reader's own key copies it
      key.textContent = "Selected: copy it by hand";
    }
  });
}
