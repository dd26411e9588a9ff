/** Words of changes that are shown before they are made. */
import type { Dynamic } from "@halflap/board/playing";

/** Everything said of changes. */
export const changeWords = {
  before: "now",
  after: "then",
  noGrip: "no grip",
  noStrum: "struck once and held",
  noFill: "no fill",
  noNotes: "place only",
  inBar: (bar: number) => `bar ${bar}`,
  gripIn: (chord: string, bar: number) => `${chord}, bar ${bar}`,
  wholeLane: "whole lane",
  pass: (section: string) => `${section}, one pass`,
  pattern: (name: string) => (name === "" ? "pattern" : `pattern “${name}”`),
  layOut: (bar: number) => `Lay out in bar ${bar}`,
  playAgain: (bar: number) => `Play again in bar ${bar}`,
  restPass: (section: string) => `Rest for one pass of ${section}`,
  playPass: (section: string) => `Play in every pass of ${section}`,
  dynamic: (bar: number, dynamic: Dynamic | undefined) =>
    dynamic === undefined ? `No loudness marked at bar ${bar}` : `${dynamic} from bar ${bar}`,
  palmMute: (bar: number, on: boolean) =>
    on ? `Palm on the strings in bar ${bar}` : `Palm off the strings in bar ${bar}`,
  letRing: (bar: number, on: boolean) =>
    on ? `Let ring in bar ${bar}` : `No ringing on in bar ${bar}`,
  mark: (bar: number, text: string) =>
    text === "" ? `No mark at bar ${bar}` : `“${text}” at bar ${bar}`,
  capo: (fret: number) => (fret === 0 ? "Capo off" : `Capo on fret ${fret}`),
  lock: (chord: string, bar: number, on: boolean) =>
    on ? `Keep the grip of ${chord}, bar ${bar}` : `Free the grip of ${chord}, bar ${bar}`,
  more: (count: number) => (count === 1 ? "and 1 more place" : `and ${count} more places`),
} as const;
