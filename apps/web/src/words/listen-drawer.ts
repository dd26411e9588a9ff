/** Words behind the slat's button: who plays, how it swings, the pedal, and the practice file. */
import type { Part } from "@halflap/sound/play-event";
import type { PointingChoice } from "../listen/create-pointing.ts";
import type { FileState } from "../listen/create-practice-file.ts";
import type { PedalAction } from "../listen/pedal.ts";
import type { Company } from "../listen/players.ts";

const refusals: Readonly<Record<"nothing" | "too-long" | "failed", string>> = {
  nothing: "The form does not come to these bars, so there is nothing to write.",
  "too-long": "Longer than 15 minutes. Take fewer rounds, or a shorter stretch.",
  failed: "It could not be made; perhaps it is too long for this machine.",
};

/** How the practice file stands. */
export function fileWords(state: FileState): string {
  switch (state.kind) {
    case "idle":
      return "";
    case "working":
      return `${Math.round(state.done * 100)} %`;
    case "saved":
      return `Saved as ${state.name}.`;
    case "refused":
      return refusals[state.why];
  }
}

/** The players, in the order in which they are listed. */
export const partWords: Readonly<Record<Exclude<Part, "count-in">, string>> = {
  upper: "Upper lane",
  lower: "Lower lane",
  bass: "Bass",
  drums: "Drums",
  click: "Click",
};

/** The choices of a lane's owner. */
export const companyWords: Readonly<Record<Company, string>> = {
  all: "Everybody",
  "without-me": "Without me",
  "only-me": "Only me",
};

/** What is heard of whatever is pointed at. */
export const pointingWords: Readonly<Record<PointingChoice, string>> = {
  off: "Nothing",
  lanes: "Both lanes",
  lane: "Only its own lane",
};

/** What a pedal does. */
export const pedalWords: Readonly<Record<PedalAction, string>> = {
  play: "Play, or stop",
  next: "Next section or loop",
  previous: "The one before",
};

/** Everything else that the drawer says. */
export const drawerWords = {
  countIn: "Count in first",
  players: "Who plays",
  level: (part: string) => `How loud: ${part}`,
  mine: (lane: string) => `${lane}, yours`,
  onlyThis: "Alone",
  aloneSpoken: (part: string) => `${part} alone`,
  how: "How it is played",
  swing: "Swing",
  usualSwing: "2 to 1",
  ratio: (ratio: number) =>
    ratio === 1 ? "even" : `${Number.isInteger(ratio) ? ratio : ratio.toFixed(1)} to 1`,
  swingHint: "How late off-beats come. Slow tunes take more of it, fast ones less.",
  noSwing: "Nothing on this board swings.",
  pointing: "Hear what I point at",
  pointingHint:
    "A grip, a way out or a finding sounds when you rest on it, with mouse or keys, or tap it; " +
    "not while the board is played.",
  pedal: "Foot pedal",
  pedalHint: "Press a button, then the pedal. Kept in this browser; silent while you write.",
  pressPedal: "Press the pedal now",
  noPedalKey: "None yet",
  learn: (action: string, shown: string) => `${action}: ${shown}. Learn a key`,
  forget: "Forget",
  forgetKey: (action: string) => `Forget the key: ${action}`,
  noBass: "Nobody plays bass on this board.",
  caution:
    "Start softly and turn up slowly: ears tire before you notice. Rest hands and ears for a few " +
    "minutes every half hour, and stop when something hurts.",
  file: "A file to practise with",
  fileHint: (what: string, tempo: string, who: string) =>
    `${what}, at ${tempo}, ${who}: as set here.`,
  rounds: "Rounds",
  make: "Save as WAV",
  makeSmall: "Save as Opus",
  formats:
    "WAV opens everywhere; what goes round on the board goes round in it too, without a seam and " +
    "without counting in. Opus is a tenth of its size.",
  onlyWav: "This browser can’t write Opus files; WAV opens everywhere.",
  cancel: "Cancel",
  progress: "Practice file",
  who: (company: Company | undefined) =>
    company === undefined ? "the players chosen" : companyWords[company].toLowerCase(),
};
