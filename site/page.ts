// Entry of every page. The page is complete without it; each part adds one thing.
import { startCalculators } from "./calculator";
import { startLadder } from "./ladder";
import { startSaving } from "./saved";

for (const start of [startCalculators, startLadder, startSaving]) {
  try {
    start();
  } catch (cause) {
    // One part that fails must not take the others with it.
    console.error(cause);
  }
}
