// The page of the jobs on this phone: all of them, one of them as a sheet, in and out as a file, a text or an address. Its parts stand
// in the page (work.html); a key says what it does in data-do.
import { make } from "./make";
import { day } from "./clock";
import { unpack, unparcel } from "./exchange";
import { handOn, SENT } from "./jobhand";
import { partNode, partsOf, OURS, type Part } from "./jobsheet";
import { button, copy, follow, LONGEST } from "./key";
import look from "./record.css";
import { leadOn } from "./lead";
import { root } from "./place";
import { wear } from "./wear";
import { begin, choose, eraseAll, forget, inHand, jobs, keepJob, lastOf, nameOf, onChange, parcelOf, saveJobs, take, trouble, type Entry, type Job } from "./work";

/** Below so many bytes the phone's room is told. */
const LITTLE = 50e6;

const find = <Kind extends HTMLElement>(css: string): Kind => document.querySelector<Kind>(".jobs " + css)!;

const lasts = new Map<string, number>(); // by job, when something was written
let turn = 0;
let sent = ""; // by an address
let all: Job[] = [];
let job: Job | undefined;
let entries: Entry[] = [];

export async function startRecord(): Promise<void> {
  await wear(look);
  const file = find<HTMLInputElement>("input[type=file]");
  find(".bench").hidden = false;
  find(".without").remove();
  find(".heads").addEventListener("change", keepHeads);
  file.addEventListener("change", () => {
    void file.files![0]?.text().then(bring);
    file.value = "";
  });
  follow(find(".bench"), {
    begin,
    find: () => file.click(),
    saveAll: () => saveJobs(all),
    share,
    save: () => saveJobs([job!]),
    print: () => print(),
    aside: () => choose(),
    remove: () => forget(job!.id),
    erase: async () => (await eraseAll()) && say("All jobs are erased from this phone."),
    keep: () => bring(sent),
    leave: () => offer(""),
  });
  handOn(() => (job ? parcelOf([{ job, entries }]) : ""));
  void tellRoom();
  onChange((job) => void show(job));
  addEventListener("hashchange", () => void receive());
  await show("");
  return receive();
}

const made = new WeakMap<Element, string>();

/** Makes those children anew that say something else than before. */
function renew(parent: Element, wanted: [said: string, node: () => HTMLElement][]): void {
  wanted.forEach(([said, node], i) => {
    const old = parent.children[i];
    if (old && made.get(old) === said) return;
    const next = node();
    made.set(next, said);
    if (old) old.replaceWith(next);
    else parent.append(next);
  });
  while (parent.children.length > wanted.length) parent.lastChild!.remove();
}

function say(text: string): void {
  find(".told").textContent = text;
  find(".by-hand").hidden = true;
}

/** Whether a private window keeps its jobs, no page is told. What it is told is said. */
async function tellRoom(): Promise<void> {
  const promised = await navigator.storage?.persisted?.().catch(() => false);
  const { quota = LITTLE, usage = 0 } = (await navigator.storage?.estimate?.().catch(() => undefined)) ?? {};
  find(".promise").hidden = promised === true;
  if (quota - usage < LITTLE) find(".promise b").textContent = ` There is room for ${Math.round((quota - usage) / 1e6)} MB more.`;
}

/** Shows what has changed: a change tells which job it was about, "" that it may be any. The sheet does not wait for the list. */
async function show(about: string): Promise<void> {
  const mine = ++turn;
  if (!about) lasts.clear();
  lasts.delete(about);
  const now = await Promise.all([inHand(), jobs()]);
  if (mine !== turn) return;
  [[job, entries], all] = now;
  if (trouble) say(trouble);
  showSheet();
  const found = await lastOf(all.map(({ id }) => id).filter((id) => !lasts.has(id)));
  if (mine !== turn) return;
  for (const [id, at] of found) lasts.set(id, at);
  showList();
}

function showList(): void {
  find(".none").hidden = all.length > 0;
  find(".asking > p > b").textContent = String(all.length);
  renew(find(".jobs-list"), all.map((one) => {
    const mine = one.id === job?.id;
    const when = day(lasts.get(one.id) ?? one.begun) + (mine ? ", in hand" : "");
    return [one.id + nameOf(one) + when, () => {
      const key = button("", () => choose(one.id));
      key.append(make("b", "", nameOf(one)), make("span", "when", when));
      key.ariaPressed = String(mine);
      return make("li", "", key);
    }];
  }));
}

/** The job in hand; its heads can be typed while its entries come in. */
function showSheet(): void {
  document.querySelector(".jobs")!.toggleAttribute("data-open", !!job);
  find(".job-sheet").hidden = !job;
  if (!job) return;
  find("h2[id]").textContent = nameOf(job);
  find(".job-sheet > .when").textContent = "Begun " + day(job.begun);
  leadOn(find<HTMLAnchorElement>("a.on"), entries);
  for (const entry of heads()) if (entry !== document.activeElement) entry.value = job[entry.name as "serial"];
  renew(find(".done"), partsOf(entries).map((part) => [JSON.stringify(part), () => {
    const node = partNode(part);
    void sinceThen(part).then((text) => text && node.querySelector("h3")!.after(make("p", "changed", text)));
    return node;
  }]));
}

function heads(): HTMLInputElement[] {
  return [...find<HTMLFormElement>(".heads").elements] as HTMLInputElement[];
}

function keepHeads(): void {
  for (const { name, value } of heads()) job![name as "serial"] = value.trim();
  void keepJob(job!);
}

/** The sheet as it stands, as plain text. */
function sheetText(): string {
  const filled = heads().filter(({ value }) => value).map(({ labels, value }) => `${labels![0]!.textContent}: ${value}`);
  const lines = [...find(".done").querySelectorAll("h3, p, li li")].map((line) => (line.matches("h3") ? "\n" : line.matches(".head") ? "" : line.matches("p") ? "  " : "    ") + line.textContent);
  return ["Work record: " + nameOf(job!), find(".job-sheet > .when").textContent, ...filled, ...lines, ""].join("\n").replaceAll("\u00a0", " ");
}

async function share(): Promise<void> {
  const [title, text] = [nameOf(job!), sheetText()];
  try {
    if ("share" in navigator) return await navigator.share({ title, text });
  } catch (cause) {
    if ((cause as Error).name === "AbortError") return; // the reader thought better of it
  }
  const shown = find<HTMLTextAreaElement>(".by-hand");
  shown.value = text;
  if (await copy(shown)) return say("Copied: paste it into a message.");
  say("Copy it from here:");
  shown.hidden = false;
  shown.select();
}

/** Takes a parcel in, whole or not at all. */
async function bring(text: string): Promise<void> {
  offer("");
  try {
    const parcels = unparcel(text);
    const last = await take(parcels);
    if (last) choose(last.id);
    say(trouble ? "Nothing was taken in. " + trouble : parcels.length === 1 ? "One job was taken in." : `${parcels.length} jobs were taken in.`);
  } catch (cause) {
    say((cause as Error).message);
  }
}

function offer(names: string): void {
  find(".offer").hidden = !names;
  find(".offer b").textContent = names;
  say("");
}

/** An address may hold a job. It is shown first: what comes from elsewhere is kept only when the reader says so. */
async function receive(): Promise<void> {
  if (!location.hash.startsWith(SENT)) return;
  const digits = location.hash.slice(SENT.length, LONGEST); // longer ones are none of ours
  history.replaceState(null, "", location.pathname + location.search);
  try {
    sent = await unpack(digits);
    offer(unparcel(sent).map(({ job }) => nameOf(job)).join("; "));
  } catch (cause) {
    say((cause as Error).message);
  }
}

/** Whether the site says something else by now than the guide did when it was followed. Without a network and a kept copy nobody knows. */
async function sinceThen({ page, text }: Part): Promise<string> {
  if (!text || !OURS.test(page)) return "";
  const response = await fetch(root + page).catch(() => undefined);
  if (response?.status === 404) return "This site has no such page any more.";
  const now = response?.ok && /data-text="?(\w+)/.exec(await response.text())?.[1];
  return now && now !== text ? "The guide has changed since." : "";
}
