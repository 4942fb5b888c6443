// What was found out, as plain text for the shop. It is written here and sent by nobody but the reader.
import type { Answer } from "./host";
import type { Told } from "./told";
import { text, titleOf, type Words } from "./words";

/** head: what stands in the page, for the reader to complete. The calculators write what was said and what is believed. */
export function report({ who, stop, clear, ended }: Told, { out, error }: Answer, words: Words, head: string): string {
  const safe = stop ? `STOPPED: ${text(words.stops.get(stop)!, ".ask")} Yes.` : clear ? "None of the safety questions is so." : "";
  const works = ended && `${titleOf(ended, words)}: it works again\n`;
  return `${head}${location.href}\nAsked by: ${who}\n\n${safe}\n\n${out?.report?.text ?? error?.text ?? ""}${works}`;
}
