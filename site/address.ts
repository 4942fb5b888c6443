// What stands in a calculator, as the part of an address behind the #, and back:
//
//   #c2/rise-test?volume=28_L&start=120_mTorr&log=min,mTorr;0,120;1,130
//
// That is the place on the page, which calculator it must be, and every entry that is not blank, with its unit. No anchor of
// a page has a question mark.
import { LONGEST } from "./key";
import { must } from "./must";

export interface Sent {
  place: string;
  id: string;
  given: Record<string, string>;
}

/** Blanks and ends of lines get short signs, and what may stand in an address as it is stays so. */
const SHORT = [["_", "%5F"], ["%20", "_"], ["%0A", ";"], ["%2C", ","], ["%2F", "/"]] as const;

export function write({ place, id, given }: Sent): string {
  const list = Object.entries(given).map(([name, text]) => {
    // Half a letter has no place in an address, and of blanks there is one kind.
    const plain = encodeURIComponent(text.replace(/[^\S\n]|\p{Cs}/gu, " "));
    return `${name}=${SHORT.reduce((out, [sign, short]) => out.replaceAll(sign, short), plain)}`;
  });
  return `#${place}/${id}?${list.join("&")}`;
}

/** Nothing where the fragment speaks of no calculator. Throws a sentence where it is none of ours: it came from anywhere. */
export function read(fragment: string): Sent | undefined {
  if (!fragment.includes("?")) return undefined;
  must(fragment.length <= LONGEST, STRANGE);
  const [, place = "", id = "", list = ""] = /^#(c\d+)\/([a-z\d-]+)\?(.+)$/.exec(fragment) ?? [];
  must(place, STRANGE);
  const given: [string, string][] = list.split("&").map((part) => {
    const [, name = "", said = ""] = /^([a-z\d-]+)=([^=]+)$/.exec(part) ?? [];
    const text = plain(said);
    must(name && !/\p{C}/u.test(text.replaceAll("\n", "")), STRANGE);
    return [name, text];
  });
  must(new Map(given).size === given.length, STRANGE);
  return { place, id, given: Object.fromEntries(given) };
}

function plain(said: string): string {
  try {
    return decodeURIComponent(said.replaceAll("_", " ").replaceAll(";", "\n"));
  } catch {
    return "\0"; // a broken code
  }
}

/** For what is none of ours. */
export const STRANGE = "The address holds something that this page does not know, so none of it was used. Open the link again, or type the entries in.";
