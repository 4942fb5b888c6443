// The page of the jobs on this phone: all of them, one of them as a sheet, in and out as a file, a text or an address.
import { make } from "./answer";
import { save } from "./csv";
import { parcel, unpack, unparcel } from "./exchange";
import { day, nameOf, partsOf, sheetNodes, sheetText } from "./jobsheet";
import { handKey, SENT } from "./jobhand";
import { asking, button } from "./key";
import look from "./record.css";
import { wear } from "./wear";
import { begin, change, choose, current, entriesOf, eraseAll, forget, jobs, onChange, take, trouble, type Job } from "./work";

await wear(look);

const root = document.documentElement.dataset.root || "./";

export function startRecord(place: HTMLElement): void {
  const page = new Jobs(place);
  onChange(() => void page.show());
  addEventListener("hashchange", () => void page.receive());
  void page.show().then(() => page.receive());
}

class Jobs {
  private readonly said = make("p", "told");
  private readonly list = make("div", "");
  private readonly open = make("div", "job-sheet");
  private shown: Job | undefined;
  private turn = 0;

  constructor(private readonly place: HTMLElement) {
    this.said.setAttribute("role", "status");
    const file = document.createElement("input");
    file.type = "file";
    file.accept = ".json,application/json";
    file.hidden = true;
    file.addEventListener("change", () => {
      const [given] = file.files ?? [];
      if (given) void this.bring(given.text());
      file.value = "";
    });
    const bring = button("Bring in a file", () => file.click());
    const erase = asking("Erase all jobs", "Erase every job from this phone? This cannot be undone.", "Erase all", () => void eraseAll().then(() => this.say("All jobs are erased from this phone.")));
    place.querySelector("p.without")?.remove();
    place.append(this.said, make("p", "keys", button("Begin a job", () => void begin()), bring, button("Save all as a file", () => void this.saveAll()), file), this.list, this.open, erase);
  }

  private say(text: string): void {
    this.said.textContent = text;
  }

  async show(): Promise<void> {
    const turn = ++this.turn;
    const [all, mine] = await Promise.all([jobs(), current()]);
    const contents = await Promise.all(all.map(({ id }) => entriesOf(id)));
    if (turn !== this.turn) return;
    if (trouble) this.say(trouble);
    this.list.replaceChildren(
      all.length
        ? make("ul", "jobs-list", ...all.map((job, i) => this.row(job, partsOf(contents[i]!), job.id === mine?.id)))
        : make("p", "none", "No job yet. The first tick in a procedure begins one."),
    );
    const at = all.findIndex(({ id }) => id === mine?.id);
    this.place.toggleAttribute("data-open", at >= 0);
    this.sheet(all[at], contents[at] ?? []);
  }

  private row(job: Job, parts: ReturnType<typeof partsOf>, mine: boolean): Node {
    const key = button("", () => choose(job.id));
    const count = parts.reduce((sum, { lines }) => sum + lines.length, 0);
    key.append(make("b", "", nameOf(job)), make("span", "when", `${day(job.begun)}, ${count} ${count === 1 ? "entry" : "entries"}${mine ? ", in hand" : ""}`));
    key.setAttribute("aria-pressed", String(mine));
    return make("li", "", key);
  }

  /** The job in hand; its heads can be changed while its entries come in. */
  private sheet(job: Job | undefined, entries: Parameters<typeof sheetNodes>[1]): void {
    if (!job) return this.open.replaceChildren();
    const rest = make("div", "", ...sheetNodes(root, entries));
    if (this.shown?.id === job.id && this.open.contains(document.activeElement) && this.open.lastElementChild) {
      this.open.lastElementChild.replaceWith(rest); // somebody types in the heads
      return;
    }
    this.shown = job;
    const sent = { job, entries };
    this.open.replaceChildren(
      make("h2", "", nameOf(job)),
      make("p", "when", "Begun " + day(job.begun)),
      make("div", "heads", ...this.heads(job)),
      make(
        "p", "keys",
        button("Share as text", () => void this.share(sheetText(job, entries), nameOf(job))),
        handKey(parcel([sent])),
        button("Save as a file", () => saveJobs(parcel([sent]), job.serial || "job")),
        button("Print", () => print()),
      ),
      asking("Remove this job", "Remove this job with all its entries? This cannot be undone.", "Remove", () => void forget(job.id)),
      rest,
    );
  }

  private heads(job: Job): Node[] {
    const heads: [keyof Job & ("machine" | "serial" | "customer" | "who"), string][] = [["machine", "Machine"], ["serial", "Serial"], ["customer", "Customer reference"], ["who", "Initials"]];
    return heads.map(([name, label]) => {
      const entry = document.createElement("input");
      entry.value = job[name];
      entry.id = "job-" + name;
      entry.autocomplete = "off";
      entry.addEventListener("change", () => {
        job[name] = entry.value.trim();
        void change(job);
      });
      const title = make("label", "", label) as HTMLLabelElement;
      title.htmlFor = entry.id;
      return make("p", "head", title, entry);
    });
  }

  private async share(text: string, title: string): Promise<void> {
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
      const shown = document.createElement("textarea");
      shown.value = text;
      shown.readOnly = true;
      shown.setAttribute("aria-label", "To be copied");
      this.say("Copy it from here:");
      this.said.append(shown);
      shown.select();
    }
  }

  private async saveAll(): Promise<void> {
    const all = await jobs();
    saveJobs(parcel(await Promise.all(all.map(async (job) => ({ job, entries: await entriesOf(job.id) })))), "jobs");
  }

  /** Takes a parcel in, whole or not at all. */
  private async bring(text: Promise<string>): Promise<void> {
    try {
      const parcels = unparcel(await text);
      let last: Job | undefined;
      for (const { job, entries } of parcels) last = await take(job, entries);
      if (last) choose(last.id);
      this.say(parcels.length === 1 ? "One job was taken in." : `${parcels.length} jobs were taken in.`);
    } catch (cause) {
      this.say(cause instanceof Error ? cause.message : String(cause));
    }
  }

  /** An address may hold a job. It is shown first: what comes from elsewhere is kept only when the reader says so. */
  async receive(): Promise<void> {
    if (!location.hash.startsWith(SENT)) return;
    const packed = location.hash.slice(SENT.length);
    history.replaceState(null, "", location.pathname + location.search);
    try {
      const text = await unpack(packed);
      const names = unparcel(text).map(({ job }) => nameOf(job)).join("; ");
      this.say(`This address holds a job: ${names}.`);
      this.said.append(" ", button("Keep it on this phone", () => void this.bring(Promise.resolve(text))), " ", button("Leave it", () => this.say("")));
    } catch (cause) {
      this.say(cause instanceof Error ? cause.message : String(cause));
    }
  }
}

function saveJobs(text: string, name: string): void {
  save(text, "application/json", `work-record-${name.replace(/[^\w-]+/g, "-").slice(0, 60)}.json`);
}
