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
// The page itself comes first on a slow line; by then the author's preview has also said that it wants no copies.
addEventListener("load", () => {
  import("./saved").then((part) => part.startSaving()).catch(console.error);
  import("./slide").then((part) => part.startSliding()).catch(console.error);
});
// A page without calculators need not load what runs them.
if (document.querySelector("section.calculator")) {
  import("./calculator").then((part) => part.startCalculators(showOnLadder)).catch(tellNoCalculators);
}
const plan = document.querySelector<HTMLElement>("main.triage[data-model]");
if (plan) import("./triage").then((part) => part.startTriage(plan)).catch(console.error); // the whole order stands there
