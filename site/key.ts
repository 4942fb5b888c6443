/** A button with a word on it. */
export function button(label: string, act: () => void): HTMLButtonElement {
  const key = document.createElement("button");
  key.type = "button";
  key.textContent = label;
  key.addEventListener("click", act);
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
