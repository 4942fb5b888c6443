// The sheet on which a reader chooses units. It exists only while it is open.
import { kinds, presets } from "./choices";
import type { Choice } from "./rewrite";

export function openSheet(choice: Choice, changed: (choice: Choice) => void): void {
  const dialog = document.createElement("dialog");
  dialog.className = "units";
  dialog.ariaLabel = "Units of the text";
  const topics = Object.keys(kinds).filter((kind) => kinds[kind]![0] === kind);
  const option = (units: string) => {
    const [larger, , smaller] = units.split(" ");
    return smaller ? `<option value=${smaller}>${smaller}, ${larger}` : `<option>${larger}`;
  };
  dialog.innerHTML =
    `<h2>Units</h2><div class=keys>${presets.map(([name, value]) => `<button value="${value}">${name}</button>`).join("")}</div>` +
    topics.map((topic) => `<label class=field>${topic[0]!.toUpperCase() + topic.slice(1)}<span class=entry><select name="${topic}"><option value="">as written${kinds[topic]!.slice(1).map(option).join("")}</select></span></label>`).join("") +
    "<p class=help>Numbers keep the precision that they were written with. Tap one to see what its author wrote.</p><div class=keys><button>Done</button></div>";
  const lists = [...dialog.querySelectorAll("select")];
  const press = () => {
    const value = lists.map((list) => list.value).join();
    for (const key of dialog.querySelectorAll<HTMLButtonElement>("[value*=',']")) key.ariaPressed = String(key.value === value);
  };
  const change = () => {
    press();
    changed(Object.fromEntries(lists.filter(({ value }) => value).map(({ name, value }) => [name, value])));
  };
  for (const list of lists) {
    list.value = choice[list.name] ?? "";
    if (list.selectedIndex < 0) list.selectedIndex = 0;
  }
  press();
  dialog.addEventListener("change", change);
  dialog.addEventListener("click", ({ target }) => {
    const values = target instanceof HTMLButtonElement ? target.value.split(",") : [];
    if (values[1] !== undefined) {
      lists.forEach((list, i) => (list.value = values[i]!));
      change();
    } else if (target === dialog || values.length) dialog.close(); // what lies behind the sheet belongs to it as well
  });
  dialog.addEventListener("close", () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
}
