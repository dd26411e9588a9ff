/**
 * By how many ms this browser's sound is shifted by hand: what is always late on one way only, or
 * in a loudspeaker, no question can show. Kept in this browser.
 */
import { remember, remembered } from "../../session/remembered.ts";

/** As far as it goes, either way, in ms; wireless headphones are a quarter of a second late. */
export const nudgeMaxMs = 400;

const name = "sound-shift-ms";

/** What was set before; 0 at first. */
export function keptNudge(): number {
  return remembered(name, (value) => (typeof value === "number" ? nudgeOf(value) : undefined)) ?? 0;
}

/** Keeps it for the next visit. */
export function keepNudge(ms: number): void {
  remember(name, nudgeOf(ms) === 0 ? undefined : nudgeOf(ms));
}

/** A whole number of ms within bounds. */
export function nudgeOf(ms: number): number {
  if (!Number.isFinite(ms)) return 0;
  return Math.max(-nudgeMaxMs, Math.min(nudgeMaxMs, Math.round(ms)));
}
