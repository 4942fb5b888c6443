// Runs the shipped search in node: ask.mjs MODULE < {"indexes":[base64 …],"queries":[[index,typed] …]}; one JSON line an answer.
import { readFileSync } from "node:fs";
import { gunzipSync } from "node:zlib";
import { pathToFileURL } from "node:url";

const { read, words } = await import(pathToFileURL(process.argv[2]));
const { indexes, queries, stems } = JSON.parse(readFileSync(0, "utf8"));
const opened = indexes.map((packed) => {
  try {
    const bytes = Buffer.from(packed, "base64");
    return read(new Uint8Array(bytes[0] === 0x1f ? gunzipSync(bytes) : bytes));
  } catch (cause) {
    return { fault: String(cause) };
  }
});
const out = [];
for (const [i, typed] of queries ?? []) {
  const index = opened[i];
  const began = performance.now();
  let [found, misspelt, fault] = [[], [], index.fault ?? ""];
  try {
    if (!fault) [found, misspelt] = index.ask(typed);
  } catch (cause) {
    fault = String(cause);
  }
  const ms = performance.now() - began;
  out.push({ found: found.map(([address, , , terms, score]) => ({ address, score, terms: [...terms] })), read: misspelt, fault, ms });
}
const cut = (stems ?? []).map((text) => words(text).map((word) => opened[0].stem(word)));
process.stdout.write(JSON.stringify({ answers: out, stems: cut }));
