// The line above the thumb bar while a job is in hand: which job, where to go on, undo.
import { make } from "./answer";
import { button } from "./key";
import { standing } from "./standing";
import { current, trouble, type Entry } from "./work";

export class Strip {
  private readonly line = make("div", "work-strip");
  private readonly job = make("a", "job") as HTMLAnchorElement;
  private readonly on: HTMLButtonElement;
  private readonly fault = make("p", "trouble");

  constructor(root: string, undo: () => void, goOn: () => void) {
    this.job.href = root + "record/";
    this.on = button("", goOn);
    this.fault.setAttribute("role", "alert");
    this.line.setAttribute("role", "group");
    this.line.setAttribute("aria-label", "Job in hand");
    this.line.append(this.fault, this.job, this.on, button("Undo", undo));
    this.line.hidden = true;
    document.querySelector(".thumb")?.before(this.line);
  }

  /** next: the step to go on with, from 0; -1 where there is none. */
  show(entries: Entry[], next: number, all: number): void {
    this.line.hidden = !standing(entries).length && !trouble;
    this.on.hidden = next < 0;
    this.on.textContent = `Go on: ${next + 1} of ${all}`;
    this.on.ariaLabel = `Go on: step ${next + 1} of ${all}`;
    if (this.fault.textContent !== trouble) this.fault.textContent = trouble;
    void current().then((job) => {
      this.job.textContent = job ? job.serial || job.machine || job.customer || "Unnamed job" : "";
    });
  }
}
