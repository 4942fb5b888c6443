/** 10:41, with the day where it was another one. */
export function clock(at: number): string {
  const date = new Date(at);
  const day = date.toDateString() === new Date().toDateString() ? "" : date.toLocaleDateString(undefined, { day: "numeric", month: "short" }) + " ";
  return day + date.toLocaleTimeString([], { hour: "2-digit", minute: "2-digit", hourCycle: "h23" });
}
