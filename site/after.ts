// What comes once the page is there.
import { startHanding } from "./hand";
import { startSaving } from "./saved";
import { startSliding } from "./slide";

/** Whose job that is, and where it goes on, strip.ts says: on pages where nothing is kept it need not be there before. */
function isJobInHand(): boolean {
  try {
    return Object.keys(localStorage).some((name) => name.startsWith("job "));
  } catch {
    return false;
  }
}

export function startAfter(withStrip: boolean): void {
  if (withStrip && isJobInHand()) import("./strip").then((part) => part.startStrip()).catch(console.error);
  // One part that fails must not take the others with it.
  for (const start of [startSliding, startHanding, startSaving]) {
    try {
      start();
    } catch (cause) {
      console.error(cause);
    }
  }
}
