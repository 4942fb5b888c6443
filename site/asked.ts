// Whether the reader asked for other units than those the authors used. What writes them is loaded only then.

/** Where the choice is kept, as JSON. Another page of the site, in another tab, hears of a change. */
const KEY = "blankoff.units";

export function startUnits(): void {
  const load = () => import("./units");
  const follow = () => void load().then((part) => part.followChoice(KEY)).catch(console.error);
  if (isKept()) follow();
  window.addEventListener("storage", ({ key }) => {
    if (key === KEY || key === null) follow(); // null: all that is kept was cleared
  });
  const button = document.querySelector<HTMLButtonElement>(".thumb button");
  if (!button) return;
  button.disabled = false;
  button.addEventListener("click", () => {
    load().then((part) => part.openChoice(KEY), tellNotLoaded);
  });
}

/** A browser may refuse its storage; then nothing was kept. */
function isKept(): boolean {
  try {
    return localStorage.getItem(KEY) !== null;
  } catch {
    return false;
  }
}

function tellNotLoaded(cause: unknown): void {
  console.error(cause);
  alert("Other units did not load. Load the page again, with a network.");
}
