// Finds pages for what a reader typed, in the index that build/search made. It knows no page and no browser: bytes and a
// text go in, a list comes out. Every table it needs comes with the index, see build/search/search.go.

import { must } from "./must";

interface Head {
  stop: string;
  endings: [string, string][][];
  same: string[];
  units: [spelling: string, kind: string, factor: number, zero: number][]; // the longest spelling first
  linear: Record<string, number>;
  called: Record<string, string>;
  bare: string;
  weights: { places: number[]; same: number; prefix: number; near: number[] };
  kinds: [name: string, weight: number][];
  pages: [address: string, title: string, kind: number, text: number][]; // text: tenths that a word of its text counts
  terms: string;
}

/** A page, and the terms of the index that it was found by. */
export type Found = [address: string, title: string, kind: string, terms: Set<string>, score: number];

export interface Index {
  /** The pages, the best first, and the words that are nowhere, for which others were taken that are almost the same. */
  ask(typed: string): [Found[], string[]];
  stem(word: string): string;
  range(kind: string, si: number): number;
}

/** A word of what was typed, as the terms that it can be. */
type Match = [term: number, worth: number];
/** A part of what was typed can be taken in several ways, each one word or more. */
type Way = Match[][];
/** By page: what it is worth, how much of the words it has, and the terms. */
type Reached = Map<number, [sum: number, had: number, found: number[]]>;

/** More than anybody types. */
const LONGEST = 200;
/** How far from a value others count, in ranges of one per cent or one step; the nearer, the more. */
const REACH = 12;

// A page has one index, so what is in it is the module's.
let head: Head;
let terms: string[];
let lists: number[][];
let same: Map<string, string[]>; // of a phrase, all that mean the same
let quantity: RegExp;

export function read(bytes: Uint8Array): Index {
  ({ head, terms, lists } = unpack(bytes));
  same = new Map();
  for (const group of head.same.map((group) => group.split("|"))) for (const phrase of group) same.set(phrase, [...(same.get(phrase) ?? []), ...group]);
  // A number with its sign, and a unit where it has one; the 4 of TQ-4 is none.
  quantity = new RegExp(`(?<![\\p{L}\\d.,]|\\p{L}\\d*-)([-−]?) ?(\\d[\\d.,]*)(?:/(\\d+))?(?:[ -]*(${head.units.map(([unit]) => literal(unit)).join("|")})(?![\\p{L}\\d/·]))?`, "giu");
  return { ask, stem, range };
}

function ask(typed: string): [Found[], string[]] {
  const misspelt: string[] = [];
  const all: Reached = new Map();
  let whole = 0;
  for (const ways of parts(typed, misspelt)) {
    // Of the ways to take a part the best counts for each page; how rare it is, the first way tells that is anywhere.
    const best: Reached = new Map();
    let count = 0;
    for (const way of ways) {
      for (const [page, to] of reach(way)) {
        // Of words that mean the same as others, all must be there.
        if (way === ways[0] || to[1] >= 0.99) keepBest(best, page, ...to);
      }
      count ||= best.size;
    }
    const rare = Math.log(1 + head.pages.length / (count + 1));
    whole += rare;
    add(all, best, rare);
  }
  const found = [...all].map(([page, [sum, had, found]]): Found => {
    const [address, title, number] = head.pages[page]!;
    const [kind, weight] = head.kinds[number]!;
    return [address, title, kind, new Set(found.map((term) => terms[term]!)), sum * weight * (had / whole)];
  });
  return [found.sort((a, b) => b[4] - a[4]), misspelt];
}

/** The pages that have words of one way; each word is an equal part of it. */
function reach(way: Way): Reached {
  const reached: Reached = new Map();
  for (const matches of way) {
    const best: Reached = new Map();
    for (const [term, worth] of matches) {
      for (const hit of lists[term]!) {
        const page = hit >> 2;
        const place = hit & 3;
        keepBest(best, page, worth * head.weights.places[place]! * (place === 1 ? head.pages[page]![3] / 10 : 1), 1, [term]);
      }
    }
    add(reached, best, 1 / way.length);
  }
  return reached;
}

/** Takes the quantities out first: what is left are words, and words in a row that have others for the same. */
function parts(typed: string, misspelt: string[]): Way[][] {
  const all: Way[][] = [];
  const spelt = typed.slice(0, LONGEST).replace(/ ?(?:\/|\bper) ?(h|min|s)(?:ours?|rs?|utes?|ec(?:ond)?s?)?\b/gi, "/$1");
  const rest = spelt.replace(quantity, (own, sign: string, over: string, under?: string, unit?: string) => {
    // 1,500 is fifteen hundred, 0,02 two hundredths, as in calc/quantity.
    const number = +over.replace(/,(?=\d{3}\b)/g, "").replace(",", ".") / +(under ?? 1);
    if (!unit && (number < 100 || terms.includes(over))) return own;
    all.push([[near(sign ? -number : number, unit ?? head.bare)]]);
    return " ";
  });
  const list = words(rest).filter((word) => !head.stop.includes(` ${word} `));
  // The last word may go on.
  const each = list.map((word, i) => termsOf(word, i === list.length - 1 && /[\p{L}\d]$/u.test(rest), misspelt));
  for (let i = 0; i < list.length; ) {
    let length = 5;
    let phrase = "";
    do phrase = each.slice(i, i + --length).map(([base]) => base).join(" ");
    while (length > 1 && !same.has(phrase));
    const others = (same.get(phrase) ?? []).map((other) => other.split(" ").map((word) => exact(word, head.weights.same)));
    // TQ 4 and pull down are one word where a hyphen joins them.
    const joined = same.has(phrase) ? [] : exact(stem(list.slice(i, i + 2).join("")), 1);
    if (joined.length) length = 2;
    all.push([each.slice(i, i + length).map(([, matches]) => matches), ...others, [joined]]);
    i += length;
  }
  return all;
}

function exact(word: string, worth: number): Match[] {
  const number = terms.indexOf(word);
  return number < 0 ? [] : [[number, worth]];
}

/** What a word can be: itself, the beginning of others, or others that it is almost. And its stem, as it should be written. */
function termsOf(word: string, open: boolean, misspelt: string[]): [base: string, matches: Match[]] {
  const base = stem(word);
  const all = exact(base, 1);
  if (word.length > 1 && (open || !all.length)) {
    terms.forEach((term, i) => {
      if (term.startsWith(word) && term !== base) all.push([i, (head.weights.prefix * word.length) / term.length]);
    });
  }
  // Of 4 to 20 letters: longer ones would keep a phone busy.
  if (all.length || Math.abs(word.length - 12) > 8 || /\d/.test(word)) return [base, all];
  for (let off = 1; off <= (base.length > 6 ? 2 : 1); off++) {
    // Nobody mistakes the first letter.
    const close = [...terms.keys()].filter((i) => terms[i]![0] === base[0] && isAlmost(base, terms[i]!, off));
    if (!close.length) continue;
    misspelt.push(word);
    return [terms[close[0]!]!, close.map((i) => [i, head.weights.near[off - 1]!])];
  }
  return [base, all];
}

/** As Stem in words.go. */
function stem(word: string): string {
  if (/\d/.test(word)) return word;
  for (const group of head.endings) {
    const [end, instead] = group.find(([ending]) => word.endsWith(ending)) ?? ["", ""];
    const rest = word.slice(0, word.length - end.length) + instead;
    if (rest.length > 2) word = rest;
  }
  return word;
}

/** A value lies in a range of one per cent, or of one step, as quantityTerm in quantities.go has it. */
function range(kind: string, si: number): number {
  return head.linear[kind] ? si / head.linear[kind] : Math.log(si) * 100;
}

/** The terms near a value. */
function near(number: number, unit: string): Match[] {
  const of = (spelling: string) => head.units.find(([other]) => other === spelling);
  // Some letters are the same to the pattern and not to the list: the Greek μ and the sign µ.
  let [, kind, factor, zero] = of(unit) ?? of(unit.toLowerCase().replace("μ", "µ")) ?? ["", "", NaN, 0];
  if (kind === "p" && number < 0) kind = "g"; // below nothing are dials alone
  const middle = Math.round(range(kind, zero + factor * number));
  const all: Match[] = [];
  for (let off = -REACH; off <= REACH; off++) all.push(...exact(`#${kind}${middle + off}`, (1 - Math.abs(off) / (REACH + 1)) ** 3));
  return all.length ? all : exact(head.called[kind] ?? "", 0.5);
}

function unpack(bytes: Uint8Array): { head: Head; terms: string[]; lists: number[][] } {
  let at = bytes.indexOf(10);
  const head = JSON.parse(new TextDecoder().decode(bytes.subarray(0, at))) as Head;
  const next = () => {
    for (let n = 0, worth = 1; ; worth *= 128) {
      // A damaged index must neither keep a phone busy nor lead to pages that are not there. No number in it is larger than the file is long.
      must(++at < bytes.length && n < bytes.length);
      const byte = bytes[at]!;
      n += (byte & 127) * worth;
      if (byte < 128) return n;
    }
  };
  let term = "";
  const terms = head.terms.split(" ").map((coded) => (term = term.slice(0, coded.charCodeAt(0) - 48) + coded.slice(1)));
  const lists = terms.map(next).map((count) => {
    const list: number[] = []; // 4·page + place
    for (let page = -1; list.length < count; ) {
      const step = next();
      page += (step >> 2) + 1;
      must(head.kinds[head.pages[page]![2]]);
      list.push(page * 4 + (step & 3));
    }
    return list;
  });
  return { head, terms, lists };
}

/** A text as a pattern that finds it. */
export function literal(text: string): string {
  return text.replace(/[$()*+.?[\\\]^{|}]/g, "\\$&");
}

/** Runs of letters and digits, and fractions such as 1/8; as eachWord in words.go. */
export function words(text: string): string[] {
  return text.toLowerCase().replace(/['’]/g, "").match(/\d+\/\d+(?![\p{L}\d])|[\p{L}\d]+/gu) ?? [];
}

function keepBest(best: Reached, page: number, sum: number, had: number, found: number[]): void {
  if (sum > (best.get(page)?.[0] ?? 0)) best.set(page, [sum, had, found]);
}

function add(to: Reached, more: Reached, times: number): void {
  for (const [page, [sum, had, found]] of more) {
    const [allSum, allHad, allFound] = to.get(page) ?? [0, 0, []];
    to.set(page, [allSum + sum * times, allHad + had * times, [...allFound, ...found]]);
  }
}

/** Whether a word becomes the other by so many letters changed, left out, added, or swapped with the next. */
function isAlmost(word: string, other: string, off: number): boolean {
  let i = 0;
  while (i < word.length && word[i] === other[i]) i++;
  const [a, b] = [word.slice(i), other.slice(i)];
  if (a === b) return true;
  if (!off || Math.abs(a.length - b.length) > off) return false;
  const after = (skipA: number, skipB: number) => isAlmost(a.slice(skipA), b.slice(skipB), off - 1);
  return after(1, 1) || after(1, 0) || after(0, 1) || (a[0] === b[1] && a[1] === b[0] && after(2, 2));
}
