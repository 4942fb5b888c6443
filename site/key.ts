import { make } from "./answer";

/** A button with a word on it; kind is its class. */
export function button(label: string, act: (key: HTMLButtonElement) => unknown, kind = ""): HTMLButtonElement {
  const key = make("button", kind, label) as HTMLButtonElement;
  key.type = "button";
  key.addEventListener("click", () => act(key));
  return key;
}

/** A button that asks once more before it acts. */
export function asking(label: string, question: string, yes: string, act: () => void): HTMLElement {
  const place = document.createElement("p");
  place.className = "asking";
  const back = () => place.replaceChildren(first);
  const first = button(label, () => {
    const sure = button(yes, () => {
      back();
      act();
    });
    place.replaceChildren(question, sure, button("Keep", back));
    sure.focus();
  });
  back();
  return place;
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
