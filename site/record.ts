// The page of the jobs on this phone: all of them, one of them as a sheet, in and out as a file, a text or an address. Its parts stand
// in the page (work.html); a key says what it does in data-do.
import { make } from "./answer";
import { parcel, saveJobs, unpack, unparcel } from "./exchange";
import { day, partNode, partsOf, sheetText, OURS, type Part } from "./jobsheet";
import { handOn, SENT } from "./jobhand";
import { button, follow } from "./key";
import look from "./record.css";
import { leadOn } from "./strip";
import { wear } from "./wear";
import { begin, choose, current, entriesOf, eraseAll, forget, jobs, keepJob, lastOf, nameOf, onChange, take, trouble, type Entry, type Job } from "./work";

await wear(look);

const root = document.documentElement.dataset.root || "./";
/** Below so many bytes the phone's room is told. */
const LITTLE = 50e6;

const place = document.querySelector<HTMLElement>(".jobs")!;
const find = <Kind extends HTMLElement>(css: string): Kind => place.querySelector<Kind>(css)!;

export function startRecord(): void {
  const page = new Jobs();
  onChange((job) => void page.show(job));
  addEventListener("hashchange", () => void page.receive());
  void page.show("").then(() => page.receive());
}

class Jobs {
  private readonly heads = find<HTMLFormElement>("form.heads");
  private readonly done = find(".done");
  private readonly file = find<HTMLInputElement>("input[type=file]");
  private readonly lasts = new Map<string, number>();
  private readonly shown = new Map<string, HTMLElement>(); // parts of the job in hand, by what they say
  private list = ""; // as JSON, what it shows
  private turn = 0;
  private sent = "";
  private all: Job[] = [];
  private job: Job | undefined;
  private entries: Entry[] = [];

  constructor() {
    find(".bench").hidden = false;
    find(".without").remove();
    this.heads.addEventListener("change", () => void this.keepHeads());
    this.file.addEventListener("change", () => {
      const [given] = this.file.files ?? [];
      if (given) void given.text().then((text) => this.bring(text));
      this.file.value = "";
    });
    follow(place, {
      begin: () => begin(),
      find: () => this.file.click(),
      saveAll: () => this.saveAll(),
      share: () => this.share(),
      save: () => saveJobs(this.parcel(), this.job!.serial || "job"),
      print: () => print(),
      aside: () => choose(),
      remove: () => forget(this.job!.id),
      erase: async () => (await eraseAll()) && this.say("All jobs are erased from this phone."),
      keep: () => this.bring(this.sent),
      leave: () => this.offer(""),
    });
    void this.tellRoom();
  }

  private say(text: string): void {
    find(".told").textContent = text;
    find(".by-hand").hidden = true;
  }

  /** Whether a private window keeps its jobs, no page is told. What it is told is said. */
  private async tellRoom(): Promise<void> {
    const promised = await navigator.storage?.persisted?.().catch(() => false);
    const { quota = LITTLE, usage = 0 } = (await navigator.storage?.estimate?.().catch(() => undefined)) ?? {};
    find(".promise").hidden = promised === true;
    if (quota - usage < LITTLE) find(".promise b").textContent = ` There is room for ${Math.round((quota - usage) / 1e6)} MB more.`;
  }

  /** Shows what has changed: a change tells which job it was about, "" that it may be any. */
  async show(about: string): Promise<void> {
    const turn = ++this.turn;
    const [all, job] = await Promise.all([jobs(), current()]);
    if (!about) this.lasts.clear();
    else this.lasts.delete(about);
    const lasts = await lastOf(all.map(({ id }) => id).filter((id) => !this.lasts.has(id)));
    const entries = job ? await entriesOf(job.id) : [];
    if (turn !== this.turn) return;
    for (const { id, begun } of all) if (!this.lasts.has(id)) this.lasts.set(id, lasts.get(id) ?? begun);
    Object.assign(this, { all, job, entries });
    if (trouble) this.say(trouble);
    this.showList();
    this.showSheet();
  }

  private showList(): void {
    const rows = this.all.map((job) => ({ id: job.id, name: nameOf(job), when: `${day(this.lasts.get(job.id)!)}${job.id === this.job?.id ? ", in hand" : ""}` }));
    const list = JSON.stringify(rows);
    if (list === this.list) return;
    this.list = list;
    find(".none").hidden = rows.length > 0;
    find(".asking > p > b").textContent = rows.length === 1 ? "one" : String(rows.length);
    find(".jobs-list").replaceChildren(...rows.map(({ id, name, when }) => {
      const key = button("", () => choose(id));
      key.append(make("b", "", name), make("span", "when", when));
      key.ariaPressed = String(id === this.job?.id);
      return make("li", "", key);
    }));
  }

  /** The job in hand; its heads can be typed while its entries come in. */
  private showSheet(): void {
    const { job } = this;
    place.toggleAttribute("data-open", !!job);
    find(".job-sheet").hidden = !job;
    if (!job) return;
    find("h2[id]").textContent = nameOf(job);
    find(".job-sheet > .when").textContent = "Begun " + day(job.begun);
    handOn(find<HTMLButtonElement>(".hand"), this.parcel());
    leadOn(find<HTMLAnchorElement>("a.on"), this.entries);
    for (const entry of this.inputs()) if (entry !== document.activeElement) entry.value = job[entry.name as keyof Job] as string;
    const parts = partsOf(this.entries).map((part): [string, Part] => [JSON.stringify(part), part]);
    for (const [said, part] of parts) if (!this.shown.has(said)) this.shown.set(said, this.partNode(part));
    for (const said of this.shown.keys()) if (!parts.some(([one]) => one === said)) this.shown.delete(said);
    this.done.replaceChildren(...parts.map(([said]) => this.shown.get(said)!));
  }

  private partNode(part: Part): HTMLElement {
    const node = partNode(root, part);
    void sinceThen(part).then((text) => text && node.querySelector("h3")!.after(make("p", "changed", text)));
    return node;
  }

  private inputs(): HTMLInputElement[] {
    return [...this.heads.elements] as HTMLInputElement[];
  }

  private keepHeads(): Promise<void> {
    for (const { name, value } of this.inputs()) this.job![name as "serial"] = value.trim();
    return keepJob(this.job!);
  }

  private parcel(): string {
    return parcel([{ job: this.job!, entries: this.entries }]);
  }

  private async share(): Promise<void> {
    const [title, text] = [nameOf(this.job!), sheetText(this.job!, this.entries)];
    try {
      if ("share" in navigator) return await navigator.share({ title, text });
    } catch (cause) {
      if (cause instanceof DOMException && cause.name === "AbortError") return; // the reader thought better of it
    }
    await this.copy(text, "The text is copied: paste it into a message.");
  }

  private async copy(text: string, said: string): Promise<void> {
    try {
      await navigator.clipboard.writeText(text);
      this.say(said);
    } catch {
      // Refused, as on plain http: the text is shown, selected, to be copied by hand.
      const shown = find<HTMLTextAreaElement>(".by-hand");
      this.say("Copy it from here:");
      shown.value = text;
      shown.hidden = false;
      shown.select();
    }
  }

  private async saveAll(): Promise<void> {
    const each = this.all.map(async (job) => ({ job, entries: await entriesOf(job.id) }));
    saveJobs(parcel(await Promise.all(each)), "jobs");
  }

  /** Takes a parcel in, whole or not at all. */
  private async bring(text: string): Promise<void> {
    this.offer("");
    try {
      const parcels = unparcel(text);
      const last = await take(parcels);
      if (last) choose(last.id);
      this.say(trouble ? "Nothing was taken in. " + trouble : parcels.length === 1 ? "One job was taken in." : `${parcels.length} jobs were taken in.`);
    } catch (cause) {
      this.say((cause as Error).message);
    }
  }

  private offer(names: string): void {
    find(".offer").hidden = !names;
    find(".offer b").textContent = names;
    this.say("");
  }

  /** An address may hold a job. It is shown first: what comes from elsewhere is kept only when the reader says so. */
  async receive(): Promise<void> {
    if (!location.hash.startsWith(SENT)) return;
    const packed = location.hash.slice(SENT.length);
    history.replaceState(null, "", location.pathname + location.search);
    try {
      this.sent = await unpack(packed);
      this.offer(unparcel(this.sent).map(({ job }) => nameOf(job)).join("; "));
    } catch (cause) {
      this.say((cause as Error).message);
    }
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
