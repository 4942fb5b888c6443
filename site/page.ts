// Entry of every page. The page is complete without it; each part adds one thing.
import { startUnits } from "./asked";
import { startLadder } from "./ladder";

/** One part that fails must not take the others with it. */
function start<T>(part: () => T): T | undefined {
  try {
    return part();
  } catch (cause) {
    console.error(cause);
    return undefined;
  }
}

/** The worked answers stand in the page, but nothing can be entered. */
function tellNoCalculators(cause: unknown): void {
  console.error(cause);
  for (const answer of document.querySelectorAll(".calculator .answer")) {
    const line = document.createElement("p");
    line.className = "waiting";
    line.textContent = "The calculators did not load, so this is the worked example only. Load the page again, with a network.";
    answer.before(line);
  }
}

const showOnLadder = start(startLadder) ?? (() => {});
start(startUnits);
// A question of the triage, asked in this tab, may want what a calculator gives.
start(() => sessionStorage.getItem("blankoff.asked") && import("./carry").then((part) => part.startCarrying()).catch(console.error));
// The page itself comes first on a slow line; by then the author's preview has also said that it wants no copies.
addEventListener("load", () => {
  import("./saved").then((part) => part.startSaving()).catch(console.error);
  import("./slide").then((part) => part.startSliding()).catch(console.error);
});
// A page without calculators need not load what runs them. Whose values stand in them comes after: a worked answer must not
// stand beside another machine's entries.
const live = document.querySelector("section.calculator")
  ? import("./calculator").then((part) => part.startCalculators(showOnLadder))
  : Promise.resolve();
live.catch(tellNoCalculators);
const chosen = document.querySelector("select.machine") ? live.then(() => import("./yours")).then((part) => part.startYours()).catch(console.error) : live;
const plan = document.querySelector<HTMLElement>("main.triage[data-model]");
if (plan) import("./triage").then((part) => part.startTriage(plan)).catch(console.error); // the whole order stands there
const procedure = document.querySelector<HTMLElement>("main.procedure");
// Without it ticks hold as long as the page is open.
if (procedure) import("./steps").then((part) => part.startSteps(procedure, chosen)).catch(console.error);
const jobs = document.querySelector<HTMLElement>("section.jobs");
if (jobs) import("./record").then((part) => part.startRecord(jobs)).catch(console.error); // the sheet to print stands there
const seek = document.querySelector<HTMLElement>("main.search[data-index]");
if (seek) import("./search").then((part) => part.startSearch(seek)).catch(console.error); // the list of all pages stands there
