// Keeps the site for work without a network, and says in the header how far that is. Loaded when the page is there.
import { button } from "./key";
import { root } from "./place";

/** What the worker tells its pages. */
interface Told {
  saved?: number; // bytes
  of?: number;
  failed?: string;
  kept?: boolean;
}

let place: HTMLElement;

export function startSaving(): void {
  place = document.querySelector<HTMLElement>("p.saved")!;
  // The author's preview wants no copies.
  if (!place || "live" in document.documentElement.dataset) return;
  if (!("serviceWorker" in navigator)) return tellNeeds();
  const worker = navigator.serviceWorker;
  worker.addEventListener("message", ({ data }: MessageEvent<Told>) => hear(data));
  // Whether all is still there, only the worker knows: a browser may have thrown some away.
  void worker.ready.then((kept) => kept.active?.postMessage("kept?"));
  // One visit is enough to work without a network, unless the reader's device asks to spare the line: then they decide.
  const line = (navigator as { connection?: { saveData?: boolean } }).connection;
  void (line?.saveData && !worker.controller ? offerSaving().catch(tellNeeds) : save());
  addEventListener("online", () => place.dataset.saved === "failed" && void save());
}

/** How much there is to save stands in the worker's script. */
async function offerSaving(): Promise<void> {
  const script = await (await fetch(root + "sw.js")).text();
  show("ask", button(`Save ${size(+/BYTES=(\d+)/.exec(script)![1]!)} for use without a network`, save));
}

async function save(): Promise<void> {
  place.dataset.saved = "";
  const worker = navigator.serviceWorker;
  try {
    follow(await worker.register(root + "sw.js", { scope: root, updateViaCache: "none" }));
  } catch (cause) {
    // Without a network the saved edition goes on working, and that is what the header then says.
    if (!worker.controller) tellNeeds(cause);
  }
}

function size(bytes: number): string {
  return bytes < 1e6 ? `${Math.ceil(bytes / 1e3)} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
}

function hear({ saved, of, failed, kept }: Told): void {
  const isKept = /ready|new/.test(place.dataset.saved!);
  // An update is saved behind a page that works offline already, and a late message may come after the end.
  if (of && /^(saving)?$/.test(place.dataset.saved!)) show("saving", `Saving ${size(of)} for use without a network: ${Math.floor((100 * saved!) / of)} %`);
  if (failed && !isKept) fail(failed);
  if (kept && !isKept) {
    show("ready", "Works offline");
    void navigator.storage?.persist?.().catch(() => {}); // a no costs nothing
  }
  if (kept === false) tellNeeds();
}

/** Plain http and some private windows allow no saving. */
function tellNeeds(cause?: unknown): void {
  show("none", "Needs a network");
  if (cause instanceof Error) place.title = cause.message;
}

function follow(kept: ServiceWorkerRegistration): void {
  const watch = () => {
    const next = kept.installing;
    next?.addEventListener("statechange", () => {
      if (next.state === "installed" && kept.active) renew(next);
      if (next.state === "redundant") tellFailure(kept);
    });
  };
  watch();
  kept.addEventListener("updatefound", watch);
  if (kept.waiting && kept.active) renew(kept.waiting);
  if (!kept.installing && !kept.waiting) tellFailure(kept);
}

/** The worker has said why, unless it came to an end before it could. */
function tellFailure({ active }: ServiceWorkerRegistration): void {
  if (!active && place.dataset.saved !== "failed") fail("it broke off");
}

function fail(why: string): void {
  show("failed", `Not saved yet: ${why}. The next visit tries again.`);
}

/** The page changes to the new edition only when the reader says so: entries may stand on it. */
function renew(next: ServiceWorker): void {
  const use = () => {
    // Another page may have taken it already.
    if (next.state !== "installed") return location.reload();
    navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
    next.postMessage("use");
  };
  show("new", button("New edition ready: use it", use));
}

function show(state: string, content: string | Node): void {
  place.dataset.saved = state;
  place.ariaLive = state === "saving" ? "off" : "polite"; // a hundred numbers are not for a screen reader
  place.title = "";
  place.replaceChildren(content);
}
