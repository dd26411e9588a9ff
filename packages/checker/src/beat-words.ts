/** Lengths in beats as they are said. */
import { ticksPerQuarter } from "@halflap/theory/units";
import type { Frame } from "./tune.ts";
import { counted } from "./words.ts";

/** "half a beat", "a beat", "a beat and a half", "two beats"; the nearest half beat. */
export function beatWords(beats: number): string {
  const halves = Math.max(1, Math.round(beats * 2));
  const whole = Math.floor(halves / 2);
  if (whole === 0) return "half a beat";
  if (halves === 3) return "a beat and a half";
  if (halves % 2 === 1) return `${counted(whole)} and a half beats`;
  return whole === 1 ? "a beat" : `${counted(whole)} beats`;
}

/** What strokes are counted by: a quarter note, which in most meters is the beat. */
export function strokeUnit({ beat }: Pick<Frame, "beat">): string {
  return beat === ticksPerQuarter ? "beat" : "quarter note";
}
