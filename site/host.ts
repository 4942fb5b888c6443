// Runs the calculators: the same Go code that wrote the worked answers into the
// pages, as a WASI reactor. It is loaded once, and only when somebody wants it.

import { fetchInflated } from "./fetched";

/** What the Go program exports. Numbers are byte counts and places in memory. */
interface Calculators extends WebAssembly.Exports {
  memory: WebAssembly.Memory;
  _initialize(): void;
  request(length: number): number;
  answer(length: number): number;
  model(length: number): void;
  reply(): number;
}

export interface Request {
  id: string;
  in: Record<string, string>;
  out?: Record<string, string>; // units wanted, where not the usual ones
  units?: Record<string, string>; // wanted by kind
  plot?: true; // wanted as well, where there is one
  page?: true; // as a page shows it
}

export interface Given {
  text: string; // a table has none
  value?: number;
  rows?: (number | string)[][];
}

export interface Answer {
  html?: string; // to a request for a page, with told
  told?: Record<string, string>; // by the words of the page: the verdict, the results, the working
  out?: Record<string, Given>; // to others, with what follows
  verdict?: { is: string; text: string };
  cautions?: string[];
  error?: { field: string; text: string };
}

let running: Promise<Calculators> | undefined;
let ready: Calculators | undefined;

/** Starts the calculators unless they run. A failure is not kept: the next call tries again. */
export function load(): Promise<Calculators> {
  running ??= start().catch((cause: unknown) => {
    running = undefined;
    throw new Error(`The calculators did not start: ${sentence(cause)}`);
  });
  return running;
}

/** Loads ahead of need. What goes wrong here is told when somebody computes. */
export function prepare(): void {
  load().catch(() => {});
}

/** Does something ahead of need, once the page is there and nothing else is to be done. */
export function whenIdle(act: () => void): void {
  const idle = () => ("requestIdleCallback" in window ? requestIdleCallback(act) : setTimeout(act));
  if (document.readyState === "complete") idle();
  else addEventListener("load", idle, { once: true });
}

/** Which instance was handed which fault model: it is read once, not for each triage. */
let told: { by: Calculators; model: string } | undefined;

/** Asks for one answer. A panic in Go ends its instance for good, so a new one gets the same question once more. */
export async function ask(request: Request, model?: string, again = false): Promise<Answer> {
  const go = await load();
  try {
    return call(go, request, model);
  } catch (cause) {
    running = undefined;
    if (again) throw new Error(`The calculator stopped at these entries: ${sentence(cause)}`);
    return ask(request, model, true);
  }
}

/** Answers at once, for who cannot wait, if the calculators run. */
export function askNow(request: Request): Answer | undefined {
  return ready && call(ready, request);
}

function call(go: Calculators, request: Request, model?: string): Answer {
  if (model !== undefined && (told?.by !== go || told.model !== model)) {
    go.model(put(go, model));
    told = { by: go, model };
  }
  const length = go.answer(put(go, JSON.stringify(request)));
  const reply = new Uint8Array(go.memory.buffer, go.reply(), length);
  return JSON.parse(new TextDecoder().decode(reply)) as Answer;
}

/** Writes a text into the module's memory and gives its length. */
function put(go: Calculators, text: string): number {
  const bytes = new TextEncoder().encode(text);
  const place = go.request(bytes.length);
  // The buffer is taken anew each time: Go may have grown its memory, which detaches the old one.
  new Uint8Array(go.memory.buffer, place, bytes.length).set(bytes);
  return bytes.length;
}

let compiled: Promise<WebAssembly.Module> | undefined;

async function start(): Promise<Calculators> {
  compiled ??= fetchInflated(document.documentElement.dataset.calc!).then((bytes) => WebAssembly.compile(bytes));
  const module = await compiled.catch((cause: unknown) => {
    compiled = undefined;
    throw cause;
  });
  let go: Calculators | undefined;
  const instance = await WebAssembly.instantiate(module, imports(module, () => go!.memory.buffer));
  go = instance.exports as Calculators;
  go._initialize();
  await new Promise((done) => setTimeout(done)); // whatever else the page has to do comes between this and the first answer
  return (ready = go);
}

/** What a Go program needs of wasi_snapshot_preview1 to start and to compute. All else is there and does nothing: no
 * arguments, no files, no waiting, nothing random; wasm/policy_test.go knows what is asked for. */
function imports(module: WebAssembly.Module, memory: () => ArrayBuffer): WebAssembly.Imports {
  const known: Record<string, (...values: number[]) => number> = {
    clock_time_get(_clock, _precision, place) {
      new DataView(memory()).setBigUint64(place, BigInt(Math.round(performance.now() * 1e6)), true);
      return 0;
    },
    proc_exit(status) {
      throw new Error(`exit ${status}`);
    },
  };
  const wanted = WebAssembly.Module.imports(module).map(({ name }) => [name, known[name] ?? (() => 0)]);
  return { wasi_snapshot_preview1: Object.fromEntries(wanted) };
}

export function sentence(cause: unknown): string {
  const text = cause instanceof Error ? cause.message : String(cause);
  return /[.!?]$/.test(text) ? text : text + ".";
}
