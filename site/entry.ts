// What a reader typed, joined with the unit chosen beside it.

/** Powers of ten and a relative accuracy hold letters and signs that are not a unit. */
const NOT_A_UNIT = /\d\s*[x×·*]\s*10(?=[\^\d⁻⁰-⁹+-])|\d[eE](?=[+-]?\d)|(?:±|\+\/?-)[\s\d.,]*%/g;
/** A letter, or a sign that stands for a unit; an apostrophe before three digits groups thousands. */
const UNIT = /[\p{L}%°"″′]|'(?!\d{3})/u;
const OVER_RANGE = /^(?:∞|-{2,})$/;

/** Gives what is sent for one entry; a unit that was typed wins over the chosen one. */
export function join(typed: string, unit: string): string {
  const text = typed.trim();
  if (!text || !unit || OVER_RANGE.test(text)) return text;
  const rest = text.replace(NOT_A_UNIT, "");
  // An accuracy in per cent is of the whole: 350 mTorr ± 10 %.
  return UNIT.test(rest) ? text : text.replace(/(?:\s*(?:±|\+\/?-)[\s\d.,]*%)?$/, (accuracy) => ` ${unit}${accuracy && " " + accuracy.trim()}`);
}

export function fieldsIn(part: ParentNode): NodeListOf<HTMLElement> {
  return part.querySelectorAll("[data-input]");
}

/** All entries of a form that hold something, by the name of the input. */
export function entries(form: HTMLFormElement): Record<string, string> {
  return Object.fromEntries([...fieldsIn(form)].map((field) => [field.dataset.input!, textOf(field)]).filter(([, text]) => text));
}

/** What one field sends: its entry with its unit, or the choice made. */
export function textOf(field: HTMLElement): string {
  const entry = entryOf(field);
  return entry ? join(entry.value, unitOf(field)?.value ?? "") : "";
}

export function entryOf(field: HTMLElement): HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement | null {
  return field.querySelector<HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement>("input, textarea, select:not(.unit)");
}

/** The choice of a unit beside an entry. */
export function unitOf(field: HTMLElement): HTMLSelectElement | null {
  return field.querySelector("select.unit");
}
