// Starts what a page has a use for; each part adds one thing. All are one module: they share much, a file of its own costs a part
// a fifth more on the way, and a phone keeps all of them anyway, for work without a network.
// In this order they are smallest on the way: what is alike stands near.
import { startRecord } from "./record";
import { startSaving } from "./saved";
import { startCalculators } from "./calculator";
import { startHanding } from "./hand";
import { startStrip } from "./strip";
import { startTriage } from "./triage";
import { startUnits } from "./units";
import { startSliding } from "./slide";
import { startLadder } from "./ladder";
import { LAST } from "./work";
import { startSteps } from "./steps";
import { ASKED, startCarrying } from "./carry";
import { startYours } from "./yours";
import { startSearch } from "./search";
import { recall, tab } from "./memory";

const find = (css: string) => document.querySelector<HTMLElement>(css);

/** One part that fails must not take the others with it. */
async function start<T>(part: () => T | Promise<T>): Promise<T | undefined> {
  try {
    return await part();
  } catch (cause) {
    console.error(cause);
    return undefined;
  }
}

// What the triage asks for, in this tab, a calculator may give.
if (recall(ASKED, tab)) void start(startCarrying);
void start(startUnits);
const move = start(startLadder);
// Whose values stand in the calculators comes after them: a worked answer must not stand beside another machine's entries.
const live = start(() => startCalculators((pressure) => void move.then((show) => show?.(pressure))));
const chosen = find("select.machine") ? live.then(() => start(startYours)) : live;
const plan = find("main.triage[data-model]");
if (plan) void start(() => startTriage(plan)); // the whole order stands there
const guide = find("main:is(.procedure, .reference)");
// Without it ticks hold as long as the page is open.
if (guide) void start(() => startSteps(guide, chosen));
const jobs = find("section.jobs");
if (jobs) void start(startRecord); // the sheet to print stands there
const seek = find("main.search[data-index]");
if (seek) void start(() => startSearch(seek)); // the list of all pages stands there

/** The page itself comes first on a slow line; by then the author's preview has also said that it wants no copies. */
function finish(): void {
  // Whose job is in hand, and where it goes on, strip.ts says: on pages where nothing is kept it need not be there before.
  if (!jobs && (guide || recall(LAST))) void start(() => startStrip(!!guide));
  for (const part of [startSliding, startHanding, startSaving]) void start(part);
}
if (document.readyState === "complete") finish();
else addEventListener("load", finish);
