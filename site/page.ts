// Entry of every page. The page is complete without it; each part adds one thing.
import { startLadder } from "./ladder";
import { startSaving } from "./saved";

/** One part that fails must not take the others with it. */
function start<T>(part: () => T): T | undefined {
  try {
    return part();
  } catch (cause) {
    console.error(cause);
    return undefined;
  }
}

const showOnLadder = start(startLadder) ?? (() => {});
start(startSaving);
// A page without calculators need not load what runs them.
if (document.querySelector("section.calculator")) {
  import("./calculator").then((part) => part.startCalculators(showOnLadder)).catch(console.error);
}
