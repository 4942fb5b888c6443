// A log by tap: a clock, a large keypad, and the verdict as it stands. Each reading is kept the moment it is taken, stamped
// with the time of its first digit, and the calculator behind gets all of them as a table.
import { make } from "./make";
import { join } from "./entry";
import { elapsed, seconds, spelt, type Elapsed, type Stamp } from "./elapsed";
import { button } from "./key";
import look from "./log.css";
import { on } from "./on";
import { calledOf, chosenUnits, piece, placeOf } from "./place";
import { lastDone, standing } from "./standing";
import { wear } from "./wear";
import { add, inHand, now, onChange, thisPage, trouble, type Entry } from "./work";

/** Of a table that can be logged: each column's name, its label, and the units that it may be read in. */
export type Columns = [name: string, label: string, units: string[]][];

type Given = Record<string, string>;

// One log is open at a time, so what it has is the module's.
let dialog: HTMLDialogElement;
let block: HTMLElement;
let answer: HTMLElement;
let table: HTMLTextAreaElement;
let unit: HTMLSelectElement;
let page: string; // of the guide that the block belongs to, also where that is opened in another one
let place: string;
let columns: Columns;
let values: Columns; // without the clock
let time: string; // name of the column of the clock; empty where there is none
let digits = "";
let stamp: Stamp | undefined; // of the first digit
let taken: Entry[] = [];
let gone: { key: number; given: Given } | undefined; // the undoing of the reading that was taken back last: a wrong tap can take that back too
let slept = false;
let said = ""; // the verdict that a screen reader has heard

export async function openLog(calculator: HTMLElement, field: HTMLElement): Promise<void> {
  await wear(look);
  block = calculator;
  answer = block.querySelector(".answer")!;
  table = field.querySelector("textarea")!;
  page = block.closest<HTMLElement>(".branch")?.dataset.page ?? thisPage;
  place = placeOf(block);
  columns = JSON.parse(field.dataset.taps!) as Columns;
  time = columns[0]![2].includes("s") ? columns[0]![0] : "";
  values = time ? columns.slice(1) : columns;
  digits = said = "";
  taken = [];
  gone = undefined;
  dialog = piece("dialog", field) as HTMLDialogElement;
  dialog.ariaLabel = part("h2").textContent = calledOf(block);
  part(".clock").hidden = !time;
  unit = part("select") as HTMLSelectElement;
  const wanted = Object.values(chosenUnits() ?? {});
  unit.append(...values[0]![2].map((name) => new Option(name, name, false, wanted.includes(name))));
  listen();
  showAll();
  void show();
}

function isHere(entry: Entry): boolean {
  return entry.page === page && entry.place === place;
}

function part(css: string): HTMLElement {
  return dialog.querySelector(css)!;
}

function listen(): void {
  document.body.append(dialog);
  dialog.showModal();
  on(dialog, "click", "[data-do]", (key) => act(key.dataset.do!));
  dialog.addEventListener("keydown", typed);
  const sleeps = () => (slept ||= document.hidden);
  document.addEventListener("visibilitychange", sleeps);
  const watch = new MutationObserver(showAnswer);
  watch.observe(answer, { childList: true });
  const ticking = setInterval(tick, 250);
  const left = onChange(() => void show());
  dialog.addEventListener("close", () => {
    clearInterval(ticking);
    watch.disconnect();
    document.removeEventListener("visibilitychange", sleeps);
    left();
    dialog.remove();
  });
}

function act(what: string): void {
  if (what === "close") dialog.close();
  else if (what === "undo") undo();
  else if (what === "take") enter();
  else press(what);
}

function typed(event: KeyboardEvent): void {
  const { key } = event;
  const target = event.target as Element;
  if (target.matches("input") || event.ctrlKey || event.metaKey || event.altKey) return;
  if (/^[\d.,]$/.test(key)) press(key.replace(",", "."));
  else if (key === "Backspace") press("");
  else if (key === "Enter" && digits && !target.matches("button:not(.take)")) enter();
  else return;
  event.preventDefault();
}

function tick(): void {
  if (time && taken.length) part(".clock").textContent = spelt(since(now()).seconds);
}

/** From the first moment to this one, from reading to reading: a clock that is set spoils one leg at most. */
function since(to: Stamp): Elapsed {
  const legs = taken.map((from, i) => elapsed(from, taken[i + 1] ?? to, slept));
  return { seconds: legs.reduce((sum, leg) => sum + leg.seconds, 0), doubt: legs.at(-1)?.doubt ?? false };
}

/** The time of a reading is that of its first digit: then the eye was on the display. */
function press(digit: string): void {
  const next = digit ? digits + digit : digits.slice(0, -1);
  if (/^\d*\.?\d*$/.test(next) && next.length < 10) digits = next;
  stamp = digits ? (stamp ?? now()) : undefined;
  showEntry();
}

function showEntry(): void {
  const shown = part(".typed");
  shown.textContent = digits || wanted()[1];
  shown.classList.toggle("empty", !digits);
  const take = part(".take") as HTMLButtonElement;
  const starts = time && !taken.length;
  const says = starts && !digits ? "Start the clock" : "Take";
  if (take.textContent !== says) take.textContent = says; // a text that is put anew under a finger loses the tap in WebKit
  take.disabled = !digits && !starts;
}

function isWhole({ given = {} }: Entry): boolean {
  return values.every(([name]) => name in given);
}

/** A row of which something is still to be read: of a pair, the second gauge. */
function begun(): Entry | undefined {
  const last = taken.at(-1);
  return last && valuesOf(last.given) && !isWhole(last) ? last : undefined;
}

/** The column that the next number belongs to. */
function wanted(): Columns[number] {
  const given = begun()?.given ?? {};
  return values.find(([name]) => !(name in given)) ?? values[0]!;
}

/** Keeps what was typed; without digits it starts the clock. The answer need not wait for the disk. */
function enter(): void {
  const moment = stamp ?? now();
  const row = begun();
  const given: Given = { ...row?.given };
  if (time && !row) {
    const { seconds, doubt } = since(moment);
    given[time] = `${seconds.toFixed(taken.length ? 1 : 0)} s`;
    if (doubt) given.doubt = "the phone's clock and the page's differ";
  }
  if (digits) given[wanted()[0]] = `${digits} ${unit.value}`;
  digits = "";
  stamp = undefined;
  const entry: Entry = row ?? { key: NaN, job: "", page, place, is: "reading", ...moment };
  entry.given = given;
  gone = undefined;
  if (!row) taken.push(entry);
  showAll();
  write(async () => {
    if (row) await keep("edit", row.key, given);
    else entry.key = (await add({ page, place, is: "reading", given }, undefined, moment)).key;
  });
}

function keep(is: "edit" | "undo", of: number, given?: Given): Promise<Entry> {
  return add({ page, place, is, of, ...(given && { given }) });
}

async function takeBack({ key, is, given }: Entry): Promise<void> {
  const undoing = await keep("undo", key);
  gone = is === "reading" && given ? { key: undoing.key, given } : undefined;
}

function undo(): void {
  write(async () => {
    const [, all] = await inHand();
    const last = lastDone(all.filter((entry) => isHere(entry) && entry.is !== "result"));
    if (last) await takeBack(last);
  });
}

let writing: Promise<unknown> = Promise.resolve();
let pending = 0;

/** One after the other; when all is kept, it is read again. */
function write(doing: () => Promise<unknown>): void {
  dialog.classList.toggle("keeping", !!++pending);
  writing = writing.then(doing).finally(() => {
    dialog.classList.toggle("keeping", !!--pending);
    void show();
  });
}

let turn = 0;

async function show(): Promise<void> {
  const mine = ++turn;
  const [, all] = await inHand();
  if (mine !== turn || pending) return;
  taken = standing(all).filter((entry) => entry.is === "reading" && isHere(entry));
  // Who reads in pascals goes on so.
  const last = /\D+$/.exec(valuesOf(taken.at(-1)?.given))?.[0].trim();
  if (last && !digits) unit.value = last;
  showAll();
}

function showAll(): void {
  part(".fault").textContent = trouble;
  const rows = part(".rows-taken");
  const text = JSON.stringify([taken.map(({ given }) => given), gone]);
  if (text !== rows.dataset.text) { // else a row that is being changed stays open
    rows.dataset.text = text;
    rows.replaceChildren(...taken.map(row), ...(gone ? [back(gone)] : []));
    rows.scrollTop = rows.scrollHeight;
  }
  hand();
  showAnswer();
  tick();
  showEntry();
}

function valuesOf(given: Given = {}): string {
  return values.map(([name]) => given[name] ?? "").filter(Boolean).join(", ");
}

function timeOf({ given }: Entry): number {
  return parseFloat(given?.[time] ?? "0");
}

function back({ key, given }: { key: number; given: Given }): Node {
  return make("li", "", button(`Put back ${valuesOf(given) || "the clock"}`, () => {
    gone = undefined;
    write(() => keep("undo", key));
  }));
}

/** One reading; a tap opens it for a change. */
function row(entry: Entry): Node {
  const { given = {} } = entry;
  const key = button("", () => {
    const open = editor(entry, given);
    key.parentElement!.replaceWith(open);
    open.scrollIntoView({ block: "nearest" });
  });
  key.append(make("span", "when", time && spelt(timeOf(entry))), make("b", "", valuesOf(given) || "clock started"), ...(given.doubt ? [make("span", "doubt", "check the time")] : []));
  return make("li", "", key);
}

function editor(entry: Entry, given: Given): HTMLElement {
  const fields = columns.filter(([name]) => name in given).map(([name, label]) => {
    const field = make("input", "") as HTMLInputElement;
    field.name = name;
    field.ariaLabel = label;
    field.value = name === time ? spelt(timeOf(entry)) : given[name]!;
    return field;
  });
  const save = button("Save", () => {
    const next: Given = {};
    for (const field of fields) {
      const { name, value } = field;
      const moment = seconds(value);
      if (name === time ? moment === undefined : !/\d/.test(value)) return refuse(field, name === time ? "Write a time as 4:30." : "Write a number with its unit.");
      next[name] = name === time ? `${moment} s` : join(value, unit.value);
    }
    write(() => keep("edit", entry.key, next));
  });
  const open = make("li", "editor", ...fields, save, button("Remove", () => write(() => takeBack(entry))), button("Leave", () => open.replaceWith(row(entry))));
  return open;
}

function refuse(field: HTMLInputElement, text: string): void {
  part(".fault").textContent = text;
  field.ariaInvalid = "true";
  field.focus();
}

/** Gives the calculator all readings, in the order of their times. */
function hand(): void {
  const rows = taken.filter(isWhole).sort((a, b) => timeOf(a) - timeOf(b));
  if (!rows.length) return; // what stands there may have been typed
  const text = csv(rows.map((entry) => (time ? { ...entry.given, [time]: `${+(timeOf(entry) / 60).toFixed(4)} min` } : entry.given!)));
  if (text === table.value) return;
  table.value = text;
  table.dispatchEvent(new Event("input", { bubbles: true }));
}

/** What the calculator says of the readings so far; a screen reader hears it when the verdict becomes another one. */
function showAnswer(): void {
  // What stands behind before the first reading is the worked example: its verdict must not be taken for this machine's.
  const own = taken.some(isWhole) ? answer : undefined;
  const textOf = (css: string) => own?.querySelector(css)?.textContent;
  if (textOf(".waiting")?.startsWith("Computing")) return;
  const mark = own?.querySelector<HTMLElement>(".verdict");
  const fault = own && block.querySelector(".fault:not([hidden])")?.textContent;
  const stands = textOf("[data-output=stands] .value") || fault || textOf(".waiting") || "the verdict comes with the readings.";
  const line = make("p", mark ? "verdict" : "waiting", make("strong", "", stands[0]!.toUpperCase() + stands.slice(1)));
  const is = (line.dataset.is = mark?.dataset.is ?? "");
  const [head, picture, because] = part(".stands").children;
  head!.replaceChildren(line);
  because!.textContent = textOf(".because") ?? "";
  const plot = own?.querySelector(".plot");
  if (!plot?.hasAttribute("aria-busy")) picture!.replaceChildren(...(plot ? [plot.firstChild!.cloneNode(true)] : []));
  if (is && is !== said) part(".announce").textContent = line.textContent;
  said = is || said;
}

/** A unit stands in the first line; a cell that is in another says so itself. */
function csv(rows: Given[]): string {
  const units = columns.map(([name]) => rows[0]![name]!.replace(/^\S+/, ""));
  const lines = rows.map((row) => columns.map(([name], i) => row[name]!.replace(units[i]!, "")).join(","));
  return [columns.map(([name], i) => name + units[i]).join(","), ...lines].join("\n");
}
