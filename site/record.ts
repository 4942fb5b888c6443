// The page of the jobs on this phone: all of them, one of them as a sheet, in and out as a file, a text or an address. Its parts stand
// in the page (work.html); a key says what it does in data-do.
import { make } from "./answer";
import { unpack, unparcel } from "./exchange";
import { handOn, SENT } from "./jobhand";
import { day, partNode, partsOf, OURS, type Part } from "./jobsheet";
import { button, follow } from "./key";
import look from "./record.css";
import { leadOn } from "./lead";
import { wear } from "./wear";
import { begin, choose, current, entriesOf, eraseAll, forget, jobs, keepJob, lastOf, nameOf, onChange, parcel, saveJobs, take, trouble, type Entry, type Job } from "./work";

const root = document.documentElement.dataset.root || "./";
/** Below so many bytes the phone's room is told. */
const LITTLE = 50e6;

const place = document.querySelector<HTMLElement>(".jobs")!;
const find = <Kind extends HTMLElement>(css: string): Kind => place.querySelector<Kind>(css)!;

export async function startRecord(): Promise<void> {
  await wear(look);
  const page = new Jobs();
  onChange((job) => void page.show(job));
  addEventListener("hashchange", () => void page.receive());
  await page.show("");
  return page.receive();
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

class Jobs {
  private readonly heads = find<HTMLFormElement>("form.heads");
  private readonly file = find<HTMLInputElement>("input[type=file]");
  private readonly lasts = new Map<string, number>();
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
      saveAll: () => saveJobs(this.all),
      share: () => this.share(),
      save: () => saveJobs([this.job!]),
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
    if (!about) this.lasts.clear();
    this.lasts.delete(about);
    const [[all, lasts], [job, entries]] = await Promise.all([
      jobs().then(async (all) => [all, await lastOf(all.map(({ id }) => id).filter((id) => !this.lasts.has(id)))] as const),
      current().then(async (job) => [job, job ? await entriesOf(job.id) : []] as const),
    ]);
    if (turn !== this.turn) return;
    for (const [id, at] of lasts) this.lasts.set(id, at);
    Object.assign(this, { all, job, entries });
    if (trouble) this.say(trouble);
    this.showList();
    this.showSheet();
  }

  private showList(): void {
    find(".none").hidden = this.all.length > 0;
    find(".asking > p > b").textContent = String(this.all.length);
    renew(find(".jobs-list"), this.all.map((job) => {
      const mine = job.id === this.job?.id;
      const when = day(this.lasts.get(job.id) ?? job.begun) + (mine ? ", in hand" : "");
      return [job.id + nameOf(job) + when, () => {
        const key = button("", () => choose(job.id));
        key.append(make("b", "", nameOf(job)), make("span", "when", when));
        key.ariaPressed = String(mine);
        return make("li", "", key);
      }];
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
    handOn(find<HTMLButtonElement>(".hand"), parcel([job]));
    leadOn(find<HTMLAnchorElement>("a.on"), this.entries);
    for (const entry of this.inputs()) if (entry !== document.activeElement) entry.value = job[entry.name as keyof Job] as string;
    renew(find(".done"), partsOf(this.entries).map((part) => [JSON.stringify(part), () => this.partNode(part)]));
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

  /** The sheet as it stands, as plain text. */
  private text(): string {
    const heads = this.inputs().filter(({ value }) => value).map(({ labels, value }) => `${labels![0]!.textContent}: ${value}`);
    const lines = [...find(".done").querySelectorAll("h3, p, li li")].map((line) => (line.matches("h3") ? "\n" : line.matches(".head") ? "" : line.matches("p") ? "  " : "    ") + line.textContent);
    return ["Work record: " + nameOf(this.job!), find(".job-sheet > .when").textContent, ...heads, ...lines, ""].join("\n").replaceAll("\u00a0", " ");
  }

  private async share(): Promise<void> {
    const [title, text] = [nameOf(this.job!), this.text()];
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
