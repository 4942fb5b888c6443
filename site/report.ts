// What was found out, as plain text for the shop. It is written here and sent by nobody but the reader.
import type { Answer } from "./host";
import { UNKNOWN, type Told } from "./told";
import { text, type Words } from "./words";

export function report(told: Told, answer: Answer | undefined, words: Words, { shop, address }: { shop: string; address: string }): string {
  const lines = [`${shop}: what was found out`, "", "Machine, serial: ", "Reading with its unit: ", `Asked by: ${told.who}`, ""];
  const stop = words.stops.get(told.stop);
  if (stop) lines.push(`STOPPED: ${text(stop, ".ask")} Yes.`, "");
  else if (told.clear) lines.push("None of the safety questions is so.", "");
  for (const [name, said] of told.answers) {
    const { ask, answers } = words.findings.get(name)!;
    lines.push(`${ask}`, `  ${said === UNKNOWN ? "not known" : (answers.get(said) ?? said)}`);
  }
  for (const name of told.done) lines.push(`${words.steps.get(name)!.title}: ${words.steps.get(name)!.tells.length ? "done" : "did not help"}`);
  if (told.ended) lines.push(`${words.steps.get(told.ended)!.title}: it works again`);
  if (answer?.out) lines.push("", ...believed(answer, words));
  return [...lines, "", "The same on a screen:", address, ""].join("\n");
}

function believed({ out, verdict, cautions }: Answer, words: Words): string[] {
  const causes = (out?.causes?.shown ?? []).slice(0, 4).map((cells) => `  ${cells[2]}  ${cells[1]}`);
  const next = (out?.steps?.shown ?? []).slice(0, 2).map(([name = "", , , own]) => (name === "hand-over" ? "  the shop goes on" : `  ${words.steps.get(name)?.title}, ${own} min`));
  const recheck = (cautions ?? []).filter((line) => line.startsWith("Recheck"));
  return [verdict?.text ?? "", "Most likely:", ...causes, "Next:", ...next, ...recheck, "These are the shop's starting values, no proof."];
}
