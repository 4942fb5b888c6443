// Keeps the site for work without a network, and says in the header how far that is. Loaded when the page is there.

/** What the worker tells its pages. */
interface Told {
  saved?: number;
  of?: number;
  failed?: string;
  kept?: boolean;
}

export function startSaving(): void {
  const place = document.querySelector<HTMLElement>("p.saved");
  // The author's preview wants no copies.
  if (!place || "live" in document.documentElement.dataset) return;
  if ("serviceWorker" in navigator) void save(place);
  else tellNeeds(place);
}

async function save(place: HTMLElement): Promise<void> {
  const root = document.documentElement.dataset.root || "./";
  const worker = navigator.serviceWorker;
  worker.addEventListener("message", ({ data }: MessageEvent<Told>) => hear(place, data));
  // Whether all is still there, only the worker knows: a browser may have thrown some away.
  void worker.ready.then((kept) => kept.active?.postMessage("kept?"));
  try {
    follow(place, await worker.register(root + "sw.js", { scope: root, updateViaCache: "none" }));
  } catch (cause) {
    // Without a network the saved edition goes on working, and that is what the header then says.
    if (!worker.controller) tellNeeds(place, cause);
  }
}

function hear(place: HTMLElement, { saved, of, failed, kept }: Told): void {
  // An update is saved behind a page that works offline already, and a late message may come after the end.
  if (saved && (!place.dataset.saved || place.dataset.saved === "saving")) show(place, "saving", `Saving ${saved} of ${of}`);
  if (failed && !isKept(place)) show(place, "failed", "Not saved yet").title = `${failed}. The next visit tries again.`;
  if (kept && !isKept(place)) {
    show(place, "ready", "Works offline");
    void navigator.storage?.persist?.().catch(() => false); // a no costs nothing
  }
  if (kept === false) tellNeeds(place);
}

/** Plain http and some private windows allow no saving. */
function tellNeeds(place: HTMLElement, cause?: unknown): void {
  show(place, "none", "Needs a network").title = cause instanceof Error ? cause.message : "";
}

function isKept(place: HTMLElement): boolean {
  return place.dataset.saved === "ready" || place.dataset.saved === "new";
}

function follow(place: HTMLElement, kept: ServiceWorkerRegistration): void {
  const watch = () => {
    const next = kept.installing;
    next?.addEventListener("statechange", () => {
      if (next.state === "installed" && kept.active) offer(place, next);
      if (next.state === "redundant") tellFailure(place, kept);
    });
  };
  watch();
  kept.addEventListener("updatefound", watch);
  if (kept.waiting && kept.active) offer(place, kept.waiting);
  if (!kept.installing && !kept.waiting) tellFailure(place, kept);
}

/** The worker has said why, unless it came to an end before it could. */
function tellFailure(place: HTMLElement, kept: ServiceWorkerRegistration): void {
  if (!kept.active && place.dataset.saved !== "failed") show(place, "failed", "Not saved yet").title = "The next visit tries again.";
}

/** The page changes to the new edition only when the reader says so: entries may stand on it. */
function offer(place: HTMLElement, next: ServiceWorker): void {
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = "New edition ready: use it";
  button.addEventListener("click", () => use(next));
  show(place, "new", button);
}

function use(next: ServiceWorker): void {
  // Another page may have taken it already.
  if (next.state !== "installed") return location.reload();
  navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
  next.postMessage("use");
}

function show(place: HTMLElement, state: string, content: string | Node): HTMLElement {
  place.dataset.saved = state;
  place.ariaLive = state === "saving" ? "off" : "polite"; // two hundred numbers are not for a screen reader
  place.title = "";
  place.replaceChildren(content);
  return place;
}
