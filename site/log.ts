// A log by tap: a clock, a large keypad, and the verdict as it stands. Each reading is kept the moment it is taken, stamped
// with the time of its first digit, and the calculator behind gets all of them as a table.
import { make } from "./answer";
import { elapsed, seconds, spelt, type Elapsed, type Stamp } from "./elapsed";
import { button } from "./key";
import look from "./log.css";
import { pageOf } from "./place";
import { lastDone, standing } from "./standing";
import { wear } from "./wear";
import { add, current, entriesOf, now, onChange, trouble, type Entry } from "./work";

await wear(look);

/** Of a table that can be logged: each column's name, its label, and the units that it may be read in. */
export type Columns = [name: string, label: string, units: string[]][];

export function openLog(block: HTMLElement, field: HTMLElement): void {
  const title = block.ariaLabel?.replace(/^.*?: /, "") ?? "Log";
  new Log(block, field.querySelector("textarea")!, JSON.parse(field.dataset.taps!) as Columns, title).open();
}

class Log {
  private readonly dialog = document.createElement("dialog");
  private readonly clock = make("p", "clock", "0:00");
  private readonly typed = make("output", "typed");
  private readonly unit = document.createElement("select");
  private readonly stands = make("div", "stands");
  private readonly rows = make("ol", "rows-taken");
  private readonly fault = make("p", "fault");
  private readonly take: HTMLButtonElement;
  private readonly page = pageOf(location.pathname);
  private readonly place: string;
  private readonly timed: boolean;
  private readonly values: Columns;
  private digits = "";
  private stamp: Stamp | undefined;
  private taken: Entry[] = [];
  private slept = false;

  constructor(
    private readonly block: HTMLElement,
    private readonly table: HTMLTextAreaElement,
    private readonly columns: Columns,
    title: string,
  ) {
    this.place = block.dataset.place ?? block.id;
    this.timed = columns[0]![2].includes("s");
    this.values = this.timed ? columns.slice(1) : columns;
    this.unit.append(...this.values[0]![2].map((unit) => new Option(unit)));
    this.unit.setAttribute("aria-label", "Unit of the reading");
    this.take = button("", () => void this.enter(), "take");
    this.clock.setAttribute("role", "timer");
    this.clock.hidden = !this.timed;
    this.fault.setAttribute("role", "alert");
    const close = button("Close", () => this.dialog.close());
    const keys = make("div", "pad", ...["7", "8", "9", "4", "5", "6", "1", "2", "3", ".", "0"].map((digit) => button(digit, () => this.press(digit))));
    const back = button("⌫", () => this.press(""));
    back.ariaLabel = "Delete the last digit";
    keys.append(back);
    this.dialog.className = "log";
    this.dialog.setAttribute("aria-label", title);
    this.dialog.append(
      make("div", "log-head", make("h2", "", title), close),
      this.clock, this.stands, this.rows, this.fault,
      make("p", "entry-line", this.typed, this.unit),
      keys,
      make("p", "log-keys", button("Undo", () => void this.undo()), this.take),
    );
    this.dialog.addEventListener("keydown", (event) => this.key(event));
  }

  open(): void {
    document.body.append(this.dialog);
    this.dialog.showModal();
    const sleeps = () => (this.slept ||= document.visibilityState === "hidden");
    document.addEventListener("visibilitychange", sleeps);
    const answered = () => this.showVerdict();
    const watch = new MutationObserver(answered);
    watch.observe(this.block, { subtree: true, childList: true, characterData: true, attributes: true, attributeFilter: ["hidden"] });
    const ticking = setInterval(() => this.tick(), 250);
    const left = onChange(() => void this.show());
    this.dialog.addEventListener("close", () => {
      clearInterval(ticking);
      watch.disconnect();
      document.removeEventListener("visibilitychange", sleeps);
      left();
      this.dialog.remove();
    });
    this.showVerdict();
    void this.show();
  }

  private tick(): void {
    if (this.timed && this.taken.length) this.clock.textContent = spelt(this.since(now()).seconds);
  }

  /** From the first moment to this one, from reading to reading: a clock that is set spoils one leg at most. */
  private since(to: Stamp): Elapsed {
    const stamps = [...this.taken, to];
    const legs = stamps.slice(1).map((stamp, i) => elapsed(stamps[i]!, stamp, this.slept));
    return { seconds: legs.reduce((sum, leg) => sum + leg.seconds, 0), doubt: legs.at(-1)?.doubt ?? false };
  }

  private key(event: KeyboardEvent): void {
    if (event.target instanceof HTMLInputElement || event.ctrlKey || event.metaKey || event.altKey) return;
    if (/^[0-9]$/.test(event.key)) this.press(event.key);
    else if (event.key === "." || event.key === ",") this.press(".");
    else if (event.key === "Backspace") this.press("");
    else if (event.key === "Enter" && this.digits && !(event.target instanceof HTMLButtonElement && event.target !== this.take)) void this.enter();
    else return;
    event.preventDefault();
  }

  /** The time of a reading is that of its first digit: then the eye was on the display. */
  private press(digit: string): void {
    if (!digit) this.digits = this.digits.slice(0, -1);
    else if (this.digits.length < 9 && !(digit === "." && this.digits.includes("."))) this.digits += digit;
    if (!this.digits) this.stamp = undefined;
    else this.stamp ??= now();
    this.showEntry();
  }

  private showEntry(): void {
    const column = this.wanted();
    this.typed.textContent = this.digits || column[1];
    this.typed.classList.toggle("empty", !this.digits);
    this.take.textContent = this.digits ? "Take" : this.timed && !this.taken.length ? "Start the clock" : "Take";
    this.take.disabled = !this.digits && (!this.timed || this.taken.length > 0);
  }

  /** A row of which something is still to be read: of a pair, the second gauge. */
  private begun(): Entry | undefined {
    const last = this.taken.at(-1);
    return last && this.valuesOf(last.given) && !this.isWhole(last) ? last : undefined;
  }

  private isWhole({ given = {} }: Entry): boolean {
    return this.values.every(([name]) => name in given);
  }

  /** The column that the next number belongs to. */
  private wanted(): Columns[number] {
    const given = this.begun()?.given ?? {};
    return this.values.find(([name]) => !(name in given)) ?? this.values[0]!;
  }

  /** Keeps what was typed; without digits it starts the clock. */
  private async enter(): Promise<void> {
    const stamp = this.stamp ?? now();
    const row = this.begun();
    const [first] = this.taken;
    const given: Record<string, string> = { ...row?.given };
    if (this.timed) {
      const { seconds, doubt } = this.since(stamp);
      given[this.columns[0]![0]] = `${seconds.toFixed(first ? 1 : 0)} s`;
      if (doubt) given.doubt = "the phone's clock and the page's differ";
    }
    if (this.digits) given[this.wanted()[0]] = `${this.digits} ${this.unit.value}`;
    this.digits = "";
    this.stamp = undefined;
    this.showEntry();
    const at = { page: this.page, place: this.place, given };
    await (row ? add({ ...at, is: "edit", of: row.key }) : add({ ...at, is: "reading" }, undefined, stamp));
  }

  private async undo(): Promise<void> {
    const job = await current();
    const last = job && lastDone((await entriesOf(job.id)).filter(({ is }) => ["reading", "edit", "undo", "clear"].includes(is)), this.page, this.place);
    if (last) await add({ page: this.page, place: this.place, is: "undo", of: last.key });
  }

  private turn = 0;
  private async show(): Promise<void> {
    const turn = ++this.turn;
    const job = await current();
    const all = job ? await entriesOf(job.id) : [];
    if (turn !== this.turn) return;
    this.taken = standing(all).filter(({ is, page, place }) => is === "reading" && page === this.page && place === this.place);
    this.fault.textContent = trouble;
    this.showVerdict();
    this.rows.replaceChildren(...this.taken.map((entry) => this.row(entry)));
    this.rows.scrollTop = this.rows.scrollHeight;
    this.hand();
    this.tick();
    this.showEntry();
  }

  private valuesOf(given: Record<string, string> = {}): string {
    return this.values.map(([name]) => given[name] ?? "").filter(Boolean).join(", ");
  }

  private timeOf(given: Record<string, string> = {}): number {
    return parseFloat(given[this.columns[0]![0]] ?? "0");
  }

  /** One reading; a tap opens it for a change. */
  private row(entry: Entry): Node {
    const { given = {} } = entry;
    const time = this.timed ? spelt(this.timeOf(given)) : "";
    const key = button("", () => key.parentElement!.replaceWith(this.editor(entry)));
    key.append(make("span", "when", time), make("b", "", this.valuesOf(given) || "clock started"), ...(given.doubt ? [make("span", "doubt", "check the time")] : []));
    return make("li", "", key);
  }

  private editor(entry: Entry): Node {
    const { given = {} } = entry;
    const entries = this.columns.filter(([name]) => name in given).map(([name, label]) => {
      const field = document.createElement("input");
      field.name = name;
      field.ariaLabel = label;
      field.value = this.timed && name === this.columns[0]![0] ? spelt(this.timeOf(given)) : given[name]!;
      return field;
    });
    const save = button("Save", () => {
      const next: Record<string, string> = {};
      for (const field of entries) {
        const isTime = this.timed && field.name === this.columns[0]![0];
        const value = isTime ? seconds(field.value) : field.value.trim();
        if (value === undefined || value === "") return this.refuse(field, isTime ? "A time is minutes and seconds, such as 4:30." : "A reading is a number with its unit.");
        next[field.name] = isTime ? `${value} s` : /[^\d.,\s-]/.test(String(value)) ? String(value) : `${value} ${this.unit.value}`;
      }
      void add({ page: this.page, place: this.place, is: "edit", of: entry.key, given: next });
    });
    const remove = button("Remove", () => void add({ page: this.page, place: this.place, is: "undo", of: entry.key }));
    return make("li", "editor", ...entries, save, remove, button("Leave", () => void this.show()));
  }

  private refuse(field: HTMLInputElement, text: string): void {
    this.fault.textContent = text;
    field.setAttribute("aria-invalid", "true");
    field.focus();
  }

  /** Gives the calculator all readings, in the order of their times. */
  private hand(): void {
    const rows = this.taken.filter((entry) => this.isWhole(entry));
    if (!rows.length) return; // what stands there may have been typed
    if (this.timed) rows.sort((a, b) => this.timeOf(a.given) - this.timeOf(b.given));
    this.table.value = csv(this.columns, rows.map(({ given }) => given ?? {}));
    this.table.dispatchEvent(new Event("input", { bubbles: true }));
  }

  /** What the calculator says of the readings so far; a screen reader hears it when it changes. */
  private showVerdict(): void {
    if (this.block.querySelector(".waiting")?.textContent?.startsWith("Computing")) return;
    // What stands behind before the first reading is the worked example: its verdict must not be taken for this machine's.
    const own = this.taken.some((entry) => this.isWhole(entry)) ? this.block : undefined;
    const plot = own?.querySelector(".answer .plot svg");
    const verdict = own?.querySelector(".answer .verdict");
    const fault = own && [...own.querySelectorAll<HTMLElement>(".fault")].find(({ hidden, textContent }) => !hidden && textContent);
    const line = (verdict?.cloneNode(true) as HTMLElement | undefined) ?? make("p", "waiting", fault?.textContent || "The verdict comes with the readings.");
    // The word stands above the plot, always in sight; why, below it.
    const because = line.querySelector(".because");
    const parts = [line, ...(plot ? [plot.cloneNode(true)] : []), ...(because ? [because] : [])];
    if (this.stands.textContent === parts.map((part) => part.textContent).join("") && !plot) return;
    this.stands.replaceChildren(...parts);
  }
}

/** A unit stands in the first line; a cell that is in another says so itself. */
export function csv(columns: Columns, rows: Record<string, string>[]): string {
  const cut = (text: string): [string, string] => {
    const at = text.indexOf(" ");
    return at < 0 ? [text, ""] : [text.slice(0, at), text.slice(at + 1)];
  };
  const units = columns.map(([name, , known]) => rows.map((row) => cut(row[name] ?? "")[1]).find(Boolean) ?? known[0]!);
  const lines = rows.map((row) => columns.map(([name], i) => {
    const [number, unit] = cut(row[name] ?? "");
    return unit === units[i] ? number : `${number} ${unit}`.trim();
  }).join(","));
  return [columns.map(([name], i) => `${name} ${units[i]}`).join(","), ...lines].join("\n");
}
