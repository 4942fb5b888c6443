// How long ago a reading was, when the phone's clock may have been set, and may have slept.
import type { Entry } from "./work";

export type Stamp = Pick<Entry, "at" | "beat">;

/** Two clocks that differ by less, in ms, agree: the phone's clock is nudged now and then. */
const AGREE = 2000;

/** Seconds from one moment to another, and whether somebody should look at them. */
export interface Elapsed {
  seconds: number;
  doubt: boolean;
}

/**
 * While the page stays open, its own clock cannot be set; but on some phones it stops while they sleep, and then the phone's
 * clock is ahead of it. A phone's clock that is ahead may also have been set. Neither is known, so a difference is a doubt.
 */
export function elapsed(from: Stamp, to: Stamp, slept: boolean): Elapsed {
  const byPhone = to.at - from.at;
  if (from.beat[0] !== to.beat[0]) return { seconds: Math.max(0, byPhone) / 1000, doubt: byPhone < 0 };
  const byPage = to.beat[1] - from.beat[1];
  if (Math.abs(byPhone - byPage) <= AGREE) return { seconds: byPage / 1000, doubt: false };
  return { seconds: (slept && byPhone > byPage ? byPhone : byPage) / 1000, doubt: true };
}

/** 4:05, or 1:04:05. */
export function spelt(seconds: number): string {
  const whole = Math.max(0, Math.floor(seconds));
  const parts = [whole / 3600, (whole / 60) % 60, whole % 60].map((n) => String(Math.floor(n)).padStart(2, "0"));
  return parts.join(":").replace(/^00:0?|^0/, "");
}

/** Reads 4:05, 1:04:05 or plain seconds; undefined for anything else. */
export function seconds(text: string): number | undefined {
  if (!/^\d+(:[0-5]?\d){0,2}([.,]\d+)?$/.test(text.trim())) return undefined;
  return text.trim().replace(",", ".").split(":").reduce((sum, part) => sum * 60 + Number(part), 0);
}
