import { make } from "./make";

/** A button with a word on it. */
export function button(label: string, act: (key: HTMLButtonElement) => unknown): HTMLButtonElement {
  const key = make("button", "", label) as HTMLButtonElement;
  key.type = "button";
  key.addEventListener("click", () => act(key));
  return key;
}

/** Does what the keys of a part say (data-do). A question that stands folded on the page is folded again by either of its keys. */
export function follow(part: HTMLElement, acts: Record<string, () => unknown>): void {
  part.addEventListener("click", (event) => {
    const key = (event.target as Element).closest("button");
    const question = key?.closest<HTMLDetailsElement>("details.asking");
    if (question) {
      question.open = false;
      question.querySelector("summary")!.focus();
    }
    acts[key?.dataset.do ?? ""]?.();
  });
}

/** Longer addresses are cut by some programs on their way. */
export const LONGEST = 8000;

/** Copies what stands in a field. Refused, as on plain http, it is selected: then the reader's own key copies it. */
export async function copy(field: HTMLTextAreaElement): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(field.value);
    return true;
  } catch {
    field.select();
    return false;
  }
}

/** The same, and the key says how it went. */
export async function copyBy(key: HTMLElement, field: HTMLTextAreaElement): Promise<boolean> {
  const copied = await copy(field);
  key.textContent = copied ? "Copied" : "Copy it by hand";
  return copied;
}

export function copyOf(field: HTMLTextAreaElement): HTMLButtonElement {
  return button("Copy", (key) => copyBy(key, field));
}
