/** Words of what a lane plays in a bar, as the strip under its grips says them. */
import type { BarAim } from "@halflap/board/board";
import type { Dynamic, FillWay, Stroke } from "@halflap/board/playing";

const endings = ["th", "st", "nd", "rd"];

/** "1st", "2nd", "11th". */
function ordinal(number: number): string {
  const isTeen = number % 100 > 10 && number % 100 < 14;
  return `${number}${isTeen ? "th" : (endings[number % 10] ?? "th")}`;
}

/** "1st time", "1st and 2nd time", "1st to 4th time". */
export function times(first: number, last: number): string {
  if (first === last) return `${ordinal(first)} time`;
  return `${ordinal(first)} ${last === first + 1 ? "and" : "to"} ${ordinal(last)} time`;
}

const loudness: Readonly<Record<Dynamic, string>> = {
  pp: "very soft",
  p: "soft",
  mp: "rather soft",
  mf: "rather loud",
  f: "loud",
  ff: "very loud",
};

/** Everything that is said of what is played. */
export const playedWords = {
  spoken: (bar: number, text: string) => `Bar ${bar} is played: ${text}`,
  spokenNothing: (bar: number) => `Bar ${bar}: no strum, fill or mark`,
  spokenRest: "lays out",
  spokenStrokes: (beats: string) => `strokes on ${beats}`,
  spokenChokes: (beats: string) => `choked on ${beats}`,
  spokenFill: (kind: string, beat: string) => `${kind} on ${beat}`,
  spokenNote: (string: number, fret: number) => `string ${string} fret ${fret}`,
  spokenDynamic: (dynamic: Dynamic) => `${loudness[dynamic]} from here`,
  beatPart: {
    beat: (beat: number) => String(beat),
    "first-quarter": (beat: number) => `${beat} e`,
    half: (beat: number) => `${beat} and`,
    "last-quarter": (beat: number) => `${beat} a`,
    "second-third": (beat: number) => `${beat} second third`,
    "last-third": (beat: number) => `${beat} last third`,
  },
  palmMuteShort: "P.M.",
  letRingShort: "l.r.",
  together: "both fill",
  add: "strum, fill, marks",
  unnamed: "Pattern without a name",
  rest: "nothing new",
  choke: "choke",
  push: "push",
  ways: { down: "down", up: "up" } satisfies Record<Stroke["way"], string>,
  weights: { accent: "accent", ghost: "ghost" },
  palmMute: "palm mute",
  passNote: (first: number, last: number, what: string) => `${times(first, last)}: ${what}`,
  kinds: { fill: "fill", line: "line" },
  noNotes: "notes still open",
  fillWays: {
    pluck: "pluck",
    "hammer-on": "hammer-on",
    "pull-off": "pull-off",
    slide: "slide",
    bend: "bend",
  } satisfies Record<FillWay, string>,
  bendBy: (tones: string) => `bend of ${tones}`,
  letRing: "let ring",
  aims: {
    unison: "unison",
    lock: "same strum",
    weave: "weave",
    stop: "stop",
    build: "build-up",
  } satisfies Record<BarAim, string>,
} as const;
