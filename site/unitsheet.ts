// The sheet on which a reader chooses units. It exists only while it is open.
import { kinds, presets } from "./choices";
import type { Choice } from "./rewrite";
import { openSheet } from "./sheet";

export function openUnits(choice: Choice, changed: (choice: Choice) => void): void {
  const option = (units: string) => {
    const [larger, , smaller] = units.split(" ");
    return smaller ? `<option value=${smaller}>${smaller}, ${larger}` : `<option>${larger}`;
  };
  const topics = Object.entries(kinds).map(([kind, [topic, ...choices]]) => kind === topic ? `<label class=field>${kind[0]!.toUpperCase() + kind.slice(1)}<span class=entry><select name="${kind}"><option value="">as written${choices.map(option).join("")}</select></span></label>` : "");
  const keys = presets.map(([name, value]) => `<button value="${value}">${name}</button>`);
  const sheet = openSheet(
    "units", "Units of the text",
    `<h2>Units</h2><div class=keys>${keys.join("")}</div>${topics.join("")}<p class=help>Numbers keep the precision that they were written with. Tap one to see what its author wrote.</p><div class=keys><button>Done</button></div>`,
  );
  const lists = [...sheet.querySelectorAll("select")];
  const press = () => {
    for (const key of sheet.querySelectorAll<HTMLButtonElement>("[value*=',']")) key.ariaPressed = String(key.value === lists.map((list) => list.value).join());
  };
  const change = () => {
    press();
    changed(Object.fromEntries(lists.filter(({ value }) => value).map(({ name, value }) => [name, value])));
  };
  for (const list of lists) {
    list.value = choice[list.name] ?? "";
    if (!list.value) list.selectedIndex = 0;
  }
  press();
  sheet.addEventListener("change", change);
  sheet.addEventListener("click", ({ target }) => {
    const values = target instanceof HTMLButtonElement ? target.value.split(",") : [];
    if (values[1] !== undefined) {
      lists.forEach((list, i) => (list.value = values[i]!));
      change();
    } else if (target === sheet || values.length) sheet.close(); // what lies behind the sheet belongs to it as well
  });
}
