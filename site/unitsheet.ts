// The sheet on which a reader chooses units; what stands on it comes from templates/units.html.
import { fetchFile } from "./fetched";
import type { Choice } from "./rewrite";
import { openSheet } from "./sheet";
import page from "./units.txt";

export async function openUnits(choice: Choice, changed: (choice: Choice) => void): Promise<void> {
  const html = await fetchFile(new URL(page, import.meta.url).href).then(
    (file) => file.text(),
    () => "<p class=help>The units did not load. Try again, with a network.</p><button>Done</button>",
  );
  const sheet = openSheet("units", "Units of the text", html);
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
