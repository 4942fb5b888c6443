// A sheet over the page. It exists only while it is open.
import { make } from "./make";

/** html: of the program itself, and of nobody else. */
export function openSheet(kind: string, label: string, html: string): HTMLDialogElement {
  const sheet = make("dialog", kind) as HTMLDialogElement;
  sheet.ariaLabel = label;
  sheet.innerHTML = html;
  sheet.addEventListener("close", () => sheet.remove());
  document.body.append(sheet);
  sheet.showModal();
  return sheet;
}
