// Made once: to make one takes longer than to write a hundred times with it.
const TIME = new Intl.DateTimeFormat([], { hour: "2-digit", minute: "2-digit", hourCycle: "h23" });
const DAY = new Intl.DateTimeFormat([], { dateStyle: "medium", timeStyle: "short" });

/** 10:41, with the day where it was another one. */
export function clock(at: number): string {
  return (new Date(at).toDateString() === new Date().toDateString() ? TIME : DAY).format(at);
}

export function day(at: number): string {
  return DAY.format(at);
}
