// Readings as files of comma-separated values, in and out of a table's entry.

import { piece } from "./place";

/** Beyond this a file is no log. */
const MOST = 5e6; // bytes

export function loadInto(field: HTMLElement): void {
  const table = field.querySelector("textarea")!;
  const file = piece("input", field) as HTMLInputElement;
  file.addEventListener("change", async () => {
    const [given] = file.files ?? [];
    if (!given) return;
    // What is wrong with the text, the calculator says beside the entry.
    table.value = given.size > MOST ? `# ${given.name} is too large for a log` : (await given.text()).trim();
    table.dispatchEvent(new Event("input", { bubbles: true }));
  });
  file.click();
}

export function saveOf(field: HTMLElement, name: string): void {
  save(field.querySelector("textarea")!.value + "\n", "text/csv", `${name}-${new Date().toISOString().slice(0, 10)}.csv`);
}

export function save(text: string, type: string, name: string): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}
