/** What came from anywhere is taken as it must be, or not at all. */
export function must(holds: unknown, text = ""): asserts holds {
  if (!holds) throw new Error(text);
}
