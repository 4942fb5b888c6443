// Makes the calculators of a page live: every entry is computed as it is typed.
// Answers come from the same code that wrote the worked ones, see host.ts.
import { write } from "./address";
import { loadInto, saveOf } from "./csv";
import { entries, entryOf, fieldsIn } from "./entry";
import { followEntries } from "./follow";
import { ask, prepare, sentence, whenIdle, type Answer } from "./host";
import { follow as followKeys, LONGEST } from "./key";
import type { Show } from "./ladder";
import { openLog } from "./log";
import { waiting } from "./make";
import { on } from "./on";
import { calledOf, chosenUnits, piece, root } from "./place";
import { receive } from "./received";
import { dress, whole } from "./whole";

/** What a calculator tells the page of each answer, as the event "answered" of its block. */
export interface Answered {
  id: string;
  title: string;
  given: Record<string, string>;
  told: Record<string, string>; // by the words of the page: the verdict, the results, the working
}

/** Done when what stands in the address is filled in, or refused: it comes before what the phone itself has kept. */
export function startCalculators(showOnLadder: Show): Promise<void> {
  startThoseOf(document);
  document.addEventListener("brought", (event) => startThoseOf((event as CustomEvent<HTMLElement>).detail));
  addEventListener("hashchange", () => void receive());
  followEntries(showOnLadder);
  return receive();
}

function startThoseOf(part: ParentNode): void {
  for (const block of part.querySelectorAll<HTMLElement>("section.calculator[data-calculator]")) start(block);
}

/** Acts when a part of the page is less than a window away. */
function whenNear(part: Element, act: () => void): void {
  const watch = new IntersectionObserver((seen) => {
    if (!seen.some(({ isIntersecting }) => isIntersecting)) return;
    watch.disconnect();
    whenIdle(act);
  }, { rootMargin: "100%" });
  watch.observe(part);
}

/** So long nobody types before a screen reader says the answer, in ms: one that speaks at every key says nothing. The address waits as well. */
const PAUSE = 800;

/** What is said of an answer: its verdict, its first result, or what is wrong. */
function spoken({ error, told = {} }: Answer): string {
  return error?.text ?? told.Verdict ?? Object.entries(told)[0]?.join(": ") ?? "";
}

/** Everything that one calculator does, around what it remembers. */
function start(block: HTMLElement): void {
  const id = block.dataset.calculator!;
  const part = <Kind extends HTMLElement>(css: string) => block.querySelector<Kind>(css)!;
  const form = part<HTMLFormElement>("form");
  const shown = part(".answer");
  const hand = part<HTMLButtonElement>(".hand");
  const opened: Record<string, boolean> = {};
  let room = part(".answer .plot"); // with the last picture in it
  let own = false; // the reader has typed
  let asked = 0;

  /** The address of what stands here, also in a guide that was opened in place; none where it would be cut on its way. */
  function address(): void {
    const page = block.closest<HTMLElement>(".branch")?.dataset.page;
    const url = new URL(page ? root + page : location.pathname, location.href);
    url.hash = write({ place: block.dataset.place ?? block.id, id, given: entries(form) });
    hand.dataset.address = url.href.length > LONGEST ? "" : url.href;
  }

  /** The address bar follows the reader on the calculator's own page, and where it speaks of this one already. It makes no entry of the history. */
  function follow(): void {
    if (own && (block.closest(".reference") || location.hash.startsWith(`#${block.id}/`))) {
      history.replaceState(history.state, "", hand.dataset.address || location.pathname);
    }
  }

  /** Silent: nothing was typed, the same answer is shown in other units, or with its picture. */
  async function compute(silent = false): Promise<void> {
    const turn = silent ? asked : ++asked;
    // An old answer must not stand beside new entries, not even while the calculators load.
    if (!silent) wait("Computing …");
    const given = entries(form);
    const answer = await ask({ id, in: given, page: true, ...(silent && { plot: true }), units: chosenUnits() }).catch((cause: unknown): Answer => ({ error: { field: "", text: sentence(cause) } }));
    const { error, html = "", told = {} } = answer;
    // In other units a refusal is worded anew; that they cannot be computed now takes no answer away.
    if (turn !== asked || (silent && error && !error.field)) return;
    tellFault(error);
    hand.disabled = !!error;
    address();
    if (!error) show(html, silent ? null : room);
    if (silent) return;
    if (!error) {
      // The picture follows when nothing else is to be done: who types waits for the answer alone. Until then the last one stands, dimmed.
      if (room) whenIdle(() => turn === asked && void compute(true));
      const detail: Answered = { id, title: calledOf(block), given, told };
      block.dispatchEvent(new CustomEvent("answered", { bubbles: true, detail }));
    }
    setTimeout(() => {
      if (turn !== asked) return;
      part(".announce").textContent = spoken(answer);
      if (!error) follow();
    }, PAUSE);
  }

  /** The working, and the table behind a plot, stay as the reader left them. A picture that is still to be drawn has the last one
   * in its place, dimmed. */
  function show(html: string, last?: Element | null): void {
    const folds = () => shown.querySelectorAll("details");
    for (const { className, open } of folds()) opened[className] = open;
    shown.innerHTML = html; // the calculators escaped what stands in it; a script in it would not run all the same
    const drawn = part(".answer .plot");
    if (drawn) room = drawn;
    else if (last) {
      last.ariaBusy = "true";
      shown.insertBefore(last, part(".cautions"));
    }
    for (const fold of folds()) fold.open = opened[fold.className] ?? false;
  }

  function wait(text: string): void {
    show(waiting(text).outerHTML);
  }

  /** Puts the sentence beside the field it is about; what concerns no field stands in place of the answer. */
  function tellFault(error: Answer["error"]): void {
    let placed = false;
    for (const field of fieldsIn(form)) {
      const said = field.dataset.input === error?.field ? error!.text : "";
      const fault = field.querySelector<HTMLElement>(".fault")!;
      fault.textContent = said;
      fault.hidden = !said;
      entryOf(field)!.ariaInvalid = said ? "true" : null;
      if (!said) continue;
      placed = true;
      const folded = field.closest("details");
      if (folded) folded.open = true;
    }
    if (error) wait(placed ? "No answer yet: one entry needs a look." : error.text);
  }

  /** Logs can be taken by tap, and go in and out as files. */
  function offerLog(field: HTMLElement): void {
    const ways = piece(".log-ways", field);
    field.querySelector(".entry")!.after(ways);
    followKeys(ways, { tap: () => openLog(block, field), load: () => loadInto(field), save: () => saveOf(field, id) });
  }

  dress(block);
  address();
  // In a guide working and tables are rooms, which an answer fills.
  shown.addEventListener("toggle", ({ target }) => (target as Element).querySelector("summary:only-child") && void compute(true), true);
  block.querySelector(".more")?.addEventListener("toggle", () => void whole(block));
  form.querySelector("fieldset")!.disabled = false;
  form.addEventListener("input", ({ target }) => {
    if (target !== form) own = true; // what fills in a form tells the form
    if (own) delete block.dataset.sent;
    void compute();
  });
  const redraw = () => whenIdle(() => void compute(true));
  document.addEventListener("units", redraw);
  if (chosenUnits()) redraw();
  // To start takes a slow phone a while, so nothing does before a reader comes near. In a guide only the room of a plot stands.
  whenNear(block, () => (block.querySelector(".answer .plot svg:empty") ? redraw() : prepare()));
  // The key for what a meter shows when a reading is beyond its range.
  on(form, "click", "[data-over]", (key) => {
    const entry = entryOf(key.closest<HTMLElement>("[data-input]")!)!;
    entry.value = "OL";
    entry.dispatchEvent(new Event("input", { bubbles: true }));
  });
  for (const field of block.querySelectorAll<HTMLElement>("[data-taps]")) offerLog(field);
  form.addEventListener("keydown", (event) => {
    // "Done" on a phone's keyboard puts it away, so that the answer is seen; nothing is sent anywhere.
    if (event.key !== "Enter" || !(event.target instanceof HTMLInputElement)) return;
    event.preventDefault();
    event.target.blur();
  });
}
