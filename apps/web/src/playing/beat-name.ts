/** How places in a bar are counted aloud: "2", "2 and", "2 e", and by thirds of a beat. */
import { playedWords } from "../words/played.ts";

/** Where a beat is divided. */
export type BeatPart =
  | "beat"
  | "first-quarter"
  | "half"
  | "last-quarter"
  | "second-third"
  | "last-third"
  | "other";

/** Which part of its beat a place starts. */
export function beatPart(at: number, beat: number): BeatPart {
  const within = at % beat;
  switch (within / beat) {
    case 0:
      return "beat";
    case 1 / 4:
      return "first-quarter";
    case 1 / 2:
      return "half";
    case 3 / 4:
      return "last-quarter";
    case 1 / 3:
      return "second-third";
    case 2 / 3:
      return "last-third";
    default:
      return "other";
  }
}

/** The number of the beat in which a place lies, from 1. */
export function beatNumber(at: number, beat: number): number {
  return Math.floor(at / beat) + 1;
}

/** "2 and": a place as one counts it aloud. */
export function beatName(at: number, beat: number): string {
  const part = beatPart(at, beat);
  const number = beatNumber(at, beat);
  if (part !== "other") return playedWords.beatPart[part](number);
  return String(Number((at / beat + 1).toFixed(2)));
}

/** What stands over a column of a grid: the beat's number, an ampersand at its half, else a dot. */
export function beatSign(at: number, beat: number): string {
  const part = beatPart(at, beat);
  return part === "beat" ? String(beatNumber(at, beat)) : part === "half" ? "&" : "·";
}

/** "½", "1½", "2": a number of beats, or of whole tones, in halves and quarters. */
export function withFractions(value: number): string {
  const whole = Math.floor(value);
  const rest = value - whole;
  const sign = fractions.find(([size]) => Math.abs(size - rest) < 0.01)?.[1];
  if (sign === undefined) return String(Number(value.toFixed(2)));
  return `${whole === 0 && sign !== "" ? "" : whole}${sign}`;
}

const fractions: readonly (readonly [number, string])[] = [
  [0, ""],
  [1 / 4, "¼"],
  [1 / 3, "⅓"],
  [1 / 2, "½"],
  [2 / 3, "⅔"],
  [3 / 4, "¾"],
];
