import { make } from "./answer";

/** A button with a word on it; kind is its class. */
export function button(label: string, act: (key: HTMLButtonElement) => void, kind = ""): HTMLButtonElement {
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
