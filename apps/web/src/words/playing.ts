/** Words of what a lane plays: strum patterns, fills, and the marks of a bar. */
import type { BarAim } from "@halflap/board/board";
import type { Dynamic, FillWay, Stroke, Strum } from "@halflap/board/playing";
import type { ReadyName } from "../playing/ready-strums.ts";

const endings = ["th", "st", "nd", "rd"];

/** "1st", "2nd", "11th". */
function ordinal(number: number): string {
  const isTeen = number % 100 > 10 && number % 100 < 14;
  return `${number}${isTeen ? "th" : (endings[number % 10] ?? "th")}`;
}

/** "1st time", "1st and 2nd time", "1st to 4th time". */
function times(first: number, last: number): string {
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

const feelNames: Readonly<Record<Strum["feel"], string>> = {
  board: "As the tune",
  straight: "Straight",
  swing: "Swung",
};

/** Everything the strip and the panel say. */
export const playingWords = {
  // The strip under the grips.
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

  // The head.
  title: (bar: number, section: string) => `Bar ${bar}, ${section}`,
  previous: "Bar before",
  next: "Bar after",
  close: "Close",
  parts: { strum: "Strum", fill: "Fill", bar: "Bar" },
  partsLabel: "What is played here",

  // Strum patterns.
  fromBar: "set for this bar",
  fromSection: (section: string) => `set for ${section}`,
  fromLane: "set for the whole lane",
  none: "No pattern yet: each grip is struck once and held. Draw one, type one, or start below.",
  noneRead: "No pattern: each grip is struck once and held.",
  notHere: "Not the pattern of this bar.",
  unnamed: "Pattern without a name",
  steps: "Steps of the pattern",
  chosenStep: (beat: string) => `Beat ${beat}`,
  step: (beat: string, does: string) => `Beat ${beat}: ${does}`,
  rest: "nothing new",
  choke: "choke",
  push: "push",
  ways: { down: "down", up: "up" } satisfies Record<Stroke["way"], string>,
  weights: { accent: "accent", ghost: "ghost" },
  marks: { accent: "Accent", ghost: "Ghost", choke: "Choke", push: "Push" },
  marksLabel: "On the chosen step",
  typed: "Typed",
  typedStrumHint: "D down, U up, d u ghosts, x choke, > accent, ~ push, a dot waits",
  typedFillHint: "Beat, then string:fret. 3 2:10  3.5 h2:12  4 2:10+1:10",
  typedFillWays: "h p s b before a note, ^2 after a bend, * rings on, /1.5 lasts so many beats",
  at: (column: number, read: string) => `At ${column + 1}, “${read}”:`,
  meant: (text: string) => `Write ${text}`,
  stepLength: "A step is",
  stepLengths: {
    6: "a thirty-second",
    8: "a sixteenth triplet",
    12: "a sixteenth",
    16: "an eighth triplet",
    24: "an eighth",
    32: "a quarter triplet",
    48: "a quarter",
    64: "a half triplet",
    72: "a dotted quarter",
    96: "a half",
    144: "a dotted half",
    192: "a whole",
  } as Readonly<Record<number, string>>,
  feel: "Feel",
  feels: feelNames,
  feelIs: (feel: Strum["feel"]) => `feel: ${feelNames[feel].toLowerCase()}`,
  palmMute: "palm mute",
  patternPalmMute: "Palm mute",
  name: "Name of the pattern",
  nameHint: "chops",
  changesBars: (count: number) => `Played in ${count} bars: a change here changes all of them.`,
  vary: "Vary for this bar only",
  varied: (name: string) => (name === "" ? "" : `${name}, varied`),
  usedFor: "Play it in",
  thisBar: "This bar",
  wholeLane: "The whole lane",
  pass: (first: number, last: number) => `${times(first, last)} only`,
  passNote: (first: number, last: number, what: string) => `${times(first, last)}: ${what}`,
  passOf: (section: string, first: number, last: number) => `${section}, ${times(first, last)}`,
  library: "Your patterns",
  libraryOf: "Patterns of this part",
  inBars: (count: number) => (count === 0 ? "not in use" : count === 1 ? "1 bar" : `${count} bars`),
  newStrum: "New pattern",
  remove: "Delete",
  removeStrum: (name: string) => `Delete ${name}`,
  libraryFull: (most: number) => `A part keeps ${most} patterns at most. Delete one first.`,
  ready: "Start from",
  readyHint: "Plain rhythms to make your own. One comes into your patterns when you press it.",
  readyNames: {
    beats: "On the beat",
    "down-up": "Down and up",
    "off-beats": "Between the beats",
    backbeats: "Backbeats, stopped",
    halves: "Slow halves",
    skip: "Skipping the third beat",
    "three-three-two": "Three, three, two",
    "long-short": "Long and short",
    rolling: "Rolling",
    "in-one": "Once a bar",
  } satisfies Record<ReadyName, string>,

  // Fills and lines.
  kinds: { fill: "fill", line: "line" },
  kind: "What it is",
  kindChoices: { fill: "Fill: answers in a gap", line: "Line: part of the tune" },
  fills: "Fills and lines here",
  noFills: "No fill or line in this bar.",
  addFill: "Add a fill",
  fillsFull: (most: number) => `A part keeps ${most} fills at most. Delete one first.`,
  noNotes: "notes still open",
  fillWhere: (kind: string, beat: string, beats: string) => `${kind} on ${beat}, ${beats}`,
  fillFrom: (kind: string, bar: number) => `${kind} from bar ${bar}`,
  beats: (count: string) => (count === "1" || count === "½" ? `${count} beat` : `${count} beats`),
  starts: "Starts on",
  lasts: "Lasts",
  bothFill: "We both fill here, on purpose",
  tab: "Tab of the fill",
  grid: "Grid",
  gridSteps: {
    24: "eighths",
    16: "triplets",
    12: "sixteenths",
    8: "sixteenth triplets",
    6: "thirty-seconds",
  } as Readonly<Record<number, string>>,
  crossing: (string: number, beat: string, note: string) =>
    `String ${string}, beat ${beat}: ${note}`,
  silent: "no note",
  fret: (fret: number) => `fret ${fret}`,
  frets: "Fret of the chosen crossing",
  chosen: (string: number, beat: string) => `String ${string}, beat ${beat}`,
  chooseCrossing: "Press where a string and a beat cross, then give the fret.",
  way: "Sounded by",
  fillWays: {
    pluck: "pluck",
    "hammer-on": "hammer-on",
    "pull-off": "pull-off",
    slide: "slide",
    bend: "bend",
  } satisfies Record<FillWay, string>,
  bendBy: (tones: string) => `bend of ${tones}`,
  bend: "Bent up by",
  tones: (tones: string) => (tones === "1" ? "a whole tone" : `${tones} tone`),
  letRing: "let ring",
  ring: "Let ring",
  noteLasts: "Lasts",
  toTheNext: "to the next note",
  removeNote: "Take the note away",
  deleteFill: "Delete this fill",
  fullFill: (most: number) => `A fill has ${most} notes at most.`,

  // The bar.
  layOut: "Lay out here",
  dynamic: "How loud, from here on",
  dynamics: { none: "as before", pp: "pp", p: "p", mp: "mp", mf: "mf", f: "f", ff: "ff" },
  barPalmMute: "Palm mute",
  barLetRing: "Let ring",
  mark: "Text on the bar",
  markHint: "stop on 1",
  aimsLabel: "We mean it",
  aimsHint: "For both parts: what looks like an accident here is on purpose.",
  aims: {
    unison: "unison",
    lock: "same strum",
    weave: "weave",
    stop: "stop",
    build: "build-up",
  } satisfies Record<BarAim, string>,
  passes: "Time by time",
  passesHint: "Each time the form comes through here.",
  passRests: "Lay out",
  passRestsNamed: (pass: string) => `Lay out: ${pass}`,
  passStrum: (pass: string) => `Pattern: ${pass}`,
  asBoard: "pattern as above",
  nothingMarked: "Nothing marked.",
} as const;
