// Keeps the screen on while somebody works, and lets it go when nothing was touched for a while.

/** So long the screen stays on after the last touch, in ms: a rise test takes 10 min, a pump-down 30. */
const LONGEST = 45 * 60_000;

let lock: Promise<WakeLockSentinel> | undefined; // asked for, or held
let wanted = false;
let over: ReturnType<typeof setTimeout> | undefined;
let tell: (awake: boolean) => void = () => {};

/** The browser can do it; it may still refuse, when the battery is low. */
export const canStayAwake = "wakeLock" in navigator;

/** Says whether the screen stays on, now and at each change. */
export function onAwake(told: (awake: boolean) => void): void {
  tell = told;
  tell(lock !== undefined);
}

export function stayAwake(): void {
  clearTimeout(over);
  over = setTimeout(letSleep, LONGEST);
  wanted = true;
  hold();
}

export function letSleep(): void {
  clearTimeout(over);
  wanted = false;
  lock?.then((held) => held.release()).catch(() => {});
}

function hold(): void {
  if (lock || document.hidden || !canStayAwake) return;
  lock = navigator.wakeLock.request("screen");
  lock.then((held) => {
    held.addEventListener("release", () => {
      lock = undefined;
      tell(false);
      if (wanted) hold(); // it was wanted again while it was being let go
    });
    tell(true);
  }).catch(() => (lock = undefined)); // refused: the screen goes dark as always, and nothing is lost by it
}

// The browser lets go when the page is out of sight, and does not take it up again by itself.
document.addEventListener("visibilitychange", () => {
  if (wanted) hold();
});
