// Handing on a job: all of it, packed by the calculators, behind the address of its page. What it says is asked for when a key is tapped.
import type { Answer, Request } from "./host";
import { LONGEST } from "./key";

/** How the fragment of such an address begins. */
export const SENT = "#job=";

let job = (): string => "";

/** text: the job in hand as a parcel, or nothing. */
export function handOn(text: () => string): void {
  job = text;
}

/** What packs the job in hand. */
export function packing(): Request | undefined {
  const text = job();
  return text ? { id: "parcel", in: { text } } : undefined;
}

/** The address that holds what was packed; empty where it is too long. */
export function packed(answer: Answer | undefined): string {
  const { href } = new URL(SENT + answer?.out?.digits!.text, location.href);
  return answer?.out && href.length <= LONGEST ? href : "";
}
