// The service worker: keeps one whole edition of the site, or none of it.
//
// A new edition goes into a cache of its own, every file checked against its digest, while pages keep using the old one.
// It is used from the next visit on, or when a reader asks for it. An edition is never completed from another.

export {};

declare const self: ServiceWorkerGlobalScope;
/** A file with its digest. */
type Kept = [path: string, digest: string];
/** Put in front of this script by the build: the edition, the file that lists all others, and how many bytes those take. */
declare const EDITION: string;
declare const LIST: Kept;
declare const BYTES: number;

const AT_ONCE = 6;
const root = self.registration.scope;
// Two sites on one host share its caches: the name says whose edition it is.
const SITE = " " + new URL(root).pathname;
const OWN = "blankoff-" + EDITION + SITE;
/** Stands in a cache that holds all its files; no file has this name. */
const COMPLETE = root + "edition.complete";

const GONE = "The browser has removed what was saved. Open this page once with a network.";

self.addEventListener("install", (event) => event.waitUntil(save()));
self.addEventListener("activate", (event) => event.waitUntil(takeOver()));
self.addEventListener("message", (event) => {
  if (event.data === "use") event.waitUntil(self.skipWaiting());
  if (event.data === "kept?") event.waitUntil(isComplete(OWN).then((kept) => event.source?.postMessage({ kept })));
});
self.addEventListener("fetch", (event) => {
  const { method, url, mode } = event.request;
  if (method !== "GET" || !url.startsWith(root)) return;
  event.respondWith(mode === "navigate" ? page(event.request) : part(event.request));
});

/** Fetches what is missing of the edition. What an earlier, broken-off try has kept was checked then, and counts. */
async function save(): Promise<void> {
  let left: Kept[] = [];
  try {
    const cache = await caches.open(OWN);
    left = (await (await checked(...LIST)).json()) as Kept[];
    let saved = 0;
    await tell({ saved, of: BYTES });
    const fetchNext = async (): Promise<void> => {
      for (let file; (file = left.shift()); ) {
        const address = root + file[0];
        if (!(await cache.match(address))) await cache.put(address, await checked(...file));
        const { size } = await (await cache.match(address))!.blob();
        saved += size;
        await tell({ saved, of: BYTES });
      }
    };
    await Promise.all(Array.from({ length: AT_ONCE }, fetchNext));
    await cache.put(COMPLETE, new Response());
  } catch (cause) {
    left.length = 0; // nobody goes on
    await tell({ failed: cause instanceof Error && cause.name !== "QuotaExceededError" ? cause.message : "this device has no room for them" });
    throw cause;
  }
}

/** What one edition has under an address. */
function inEdition(name: string, address: string): Promise<Response | undefined> {
  return caches.match(address, { cacheName: name });
}

/** An edition of which a file is missing, or that the browser has thrown away, is none. */
async function isComplete(name: string): Promise<boolean> {
  return !!(await inEdition(name, COMPLETE));
}

/** The browser refuses a body that does not have the digest. */
async function checked(path: string, digest: string): Promise<Response> {
  const address = root + path.replace(/(^|\/)index\.html$/, "$1");
  const response = await fetch(address, { integrity: digest, cache: "no-cache" }).catch(() => {
    throw new Error(`${path} did not arrive whole`);
  });
  // A copy, because a host may have redirected, and a page must not be answered with a redirected response.
  return new Response(await response.blob());
}

/**
 * The edition before stays until the next one comes: a page of it that is still open may ask for a file of its own.
 * Names of files that belong to an edition carry a digest, so it can be found by name alone.
 */
async function takeOver(): Promise<void> {
  const others = (await caches.keys()).filter((name) => name.startsWith("blankoff-") && name.endsWith(SITE) && name !== OWN);
  let before = "";
  for (const name of others) if (await isComplete(name)) before = name; // caches come in the order in which they were made
  await Promise.all(others.filter((name) => name !== before).map((name) => caches.delete(name)));
  await self.clients.claim();
}

/** A page comes from this edition, whatever stands behind its question mark; an unknown one from the network while there is one. */
async function page(request: Request): Promise<Response> {
  const address = bare(request);
  const kept = await inEdition(OWN, address.replace(/\/$/, "/index.html"));
  if (kept) return kept;
  if (await inEdition(OWN, address + "/index.html")) return Response.redirect(address + "/");
  const fetched = await fetch(request).catch(() => undefined);
  if (fetched && fetched.status !== 404) return fetched;
  // Sent on rather than answered in place: the links of that page are relative to the root.
  const missing = root + "404.html";
  return (await inEdition(OWN, missing)) ? Response.redirect(missing) : new Response(GONE, { status: 503 });
}

/** A part of a page (style, script, picture, calculators): this edition's, else the one that an older page needs. */
async function part(request: Request): Promise<Response> {
  const address = bare(request);
  return (await inEdition(OWN, address)) ?? (await caches.match(address)) ?? fetch(request);
}

function bare({ url }: Request): string {
  return url.replace(/[?#].*/, "");
}

async function tell(progress: { saved: number; of: number } | { failed: string }): Promise<void> {
  const pages = await self.clients.matchAll({ type: "window", includeUncontrolled: true });
  for (const page of pages) page.postMessage(progress);
}
