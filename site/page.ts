// Entry of every page. The page is complete without it; each part adds one thing, and is loaded by the pages that have a use for it.
import type { Show } from "./ladder";

const find = (css: string) => document.querySelector<HTMLElement>(css);
/** One part that fails must not take the others with it. */
const tell = (cause: unknown) => console.error(cause);

/** The worked answers stand in the page, but nothing can be entered. */
function tellNoCalculators(cause: unknown): void {
  tell(cause);
  for (const answer of document.querySelectorAll(".calculator .answer")) {
    const line = document.createElement("p");
    line.className = "waiting";
    line.textContent = "The calculators did not load, so this is the worked example only. Load the page again, with a network.";
    answer.before(line);
  }
}

/** Whose job that is, and where it goes on, strip.ts says: on pages where nothing is kept it need not be there before. */
function isJobInHand(): boolean {
  try {
    return Object.keys(localStorage).some((name) => name.startsWith("job "));
  } catch {
    return false;
  }
}

/** What the triage asks for, in this tab, a calculator may give. */
function isAsked(): boolean {
  try {
    return sessionStorage.getItem("blankoff.asked") !== null;
  } catch {
    return false;
  }
}

if (isAsked()) import("./carry").then((part) => part.startCarrying()).catch(tell);
import("./asked").then((part) => part.startUnits()).catch(tell);
const ladder = find(".ladder") ? import("./ladder").then((part) => part.startLadder()) : undefined;
ladder?.catch(tell);
const show: Show = (pressure) => void ladder?.then((move) => move(pressure), () => {});
// The page itself comes first on a slow line; by then the author's preview has also said that it wants no copies.
addEventListener("load", () => {
  if (!guide && !jobs && isJobInHand()) import("./strip").then((part) => part.startStrip()).catch(tell);
  import("./saved").then((part) => part.startSaving()).catch(tell);
  import("./slide").then((part) => part.startSliding()).catch(tell);
  import("./hand").then((part) => part.startHanding()).catch(tell);
});
// Whose values stand in the calculators comes after them: a worked answer must not stand beside another machine's entries.
const live = find("section.calculator") ? import("./calculator").then((part) => part.startCalculators(show)) : Promise.resolve();
live.catch(tellNoCalculators);
const chosen = find("select.machine") ? live.then(() => import("./yours")).then((part) => part.startYours()).catch(tell) : live;
const plan = find("main.triage[data-model]");
if (plan) import("./triage").then((part) => part.startTriage(plan)).catch(tell); // the whole order stands there
const guide = find("main:is(.procedure, .reference)");
// Without it ticks hold as long as the page is open.
if (guide) import("./steps").then((part) => part.startSteps(guide, chosen)).catch(tell);
const jobs = find("section.jobs");
if (jobs) import("./record").then((part) => part.startRecord()).catch(tell); // the sheet to print stands there
const seek = find("main.search[data-index]");
if (seek) import("./search").then((part) => part.startSearch(seek)).catch(tell); // the list of all pages stands there
