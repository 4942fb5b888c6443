// The line above the thumb bar while a job is in hand: which job, where its work goes on, undo.
import { make } from "./make";
import { button } from "./key";
import { leadOn } from "./lead";
import { root } from "./place";
import { lastDone } from "./standing";
import look from "./strip.css";
import { wear } from "./wear";
import { add, current, guides, inHand, nameOf, saveJobs, textOf, trouble, watch, type Entry } from "./work";

/** undoes: on this page something can be taken back. */
export async function startStrip(undoes = false): Promise<void> {
  await wear(look);
  const line = make("section", "work-strip");
  line.innerHTML = `<p class=trouble role=alert></p><a class=job href=${root}record/></a><a class=on></a>`;
  const fault = line.querySelector("p")!;
  const [job, on] = line.querySelectorAll("a") as unknown as [HTMLAnchorElement, HTMLAnchorElement];
  const save = button("Save as a file", () => current().then((job) => job && saveJobs([job])));
  fault.after(save);
  if (undoes) line.append(button("Undo", undo));
  line.ariaLabel = "Job in hand";
  line.hidden = true;
  document.querySelector(".thumb")!.before(line);
  on.addEventListener("click", (event) => {
    const step = takeUp(on.hash);
    if (on.pathname !== location.pathname || !step) return;
    event.preventDefault(); // a fragment would take the focus away from the box
    step.scrollIntoView();
  });
  takeUp(location.hash);

  watch((mine, all) => {
    job.textContent = mine ? nameOf(mine) : "";
    leadOn(on, all);
    const said = trouble || changed(all);
    if (fault.textContent !== said) fault.textContent = said;
    save.hidden = !trouble;
    line.hidden = !mine && !trouble;
  });
}

/** The step that a link leads to has the focus at its box. */
function takeUp(hash: string): HTMLElement | null {
  const step = document.getElementById(hash.slice(1));
  step?.querySelector<HTMLElement>(":scope > .tick input")?.focus({ preventScroll: true });
  return step;
}

/** Who goes on in a guide that says something else by now must know. */
function changed(all: Entry[]): string {
  for (const [page, { dataset }] of guides) {
    const text = textOf(all, page);
    if (text && text !== dataset.text) return "This guide has changed since this job was last here. Look again at the steps that are done.";
  }
  return "";
}

async function undo(): Promise<void> {
  const [, all] = await inHand();
  const last = lastDone(all.filter(({ page }) => guides.has(page)));
  if (last) await add({ page: last.page, place: last.place, is: "undo", of: last.key });
}
