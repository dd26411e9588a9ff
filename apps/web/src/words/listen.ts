/** Words of listening: playing the board, where it is, and what goes round. */
import type { LaneId } from "@halflap/board/board";
import type { ListenState } from "../listen/create-sound.ts";
import { times } from "./played.ts";

const troubles: Readonly<Record<"insecure" | "missing" | "failed", string>> = {
  insecure:
    "Browsers play sound like this only at an https address, or on the computer that runs the " +
    "board. A practice file works here too.",
  missing: "This browser can’t play the board. A practice file works here too.",
  failed:
    "The sound could not be loaded. Is the server in reach? Press Play to try again; if it fails " +
    "again, reload the page.",
};

/** What has to be said beside the buttons; undefined when all is as it should be. */
export function stateWords(state: ListenState): string | undefined {
  switch (state.kind) {
    case "silent":
    case "playing":
      return undefined;
    case "loading":
      return "Getting the guitars out …";
    case "held":
      return "The browser holds the sound back.";
    case "nothing-to-play":
      return "Nothing to play: the form does not come to these bars.";
    case "impossible":
      return troubles[state.why];
  }
}

/** Everything else that the slat at the bottom says while its drawer is closed. */
export const listenWords = {
  name: "Listening",
  play: "Play",
  stop: "Stop",
  hear: "Hear it",
  hearBar: "Hear the bar",
  hearBefore: "Hear it now",
  hearAfter: "Hear it after",
  hearSpoken: (what: string) => `: ${what}`,
  goOn: "Let it sound",
  from: (bar: number, section: string) => `From bar ${bar}, ${section}`,
  fromStart: "From the start",
  at: (bar: number, section: string, time: string | undefined) =>
    [`Bar ${bar}`, section, time].filter(Boolean).join(", "),
  time: (round: number) => times(round, round),
  alone: ", on its own: not in the form",
  countingIn: "Counting in",
  ringing: "Ringing out",
  tempo: "Tempo",
  percent: (factor: number) => `${Math.round(factor * 100)} %`,
  beats: (tempo: number) => `${Math.round(tempo)} a minute`,
  asWritten: "As written",
  loop: "Round and round",
  noLoop: "Straight through",
  bars: "From bar to bar",
  fromBar: "From bar",
  toBar: "to bar",
  whole: "The whole tune",
  stretch: (from: number, to: number) => `Bars ${from} to ${to}`,
  more: "More",
  moreSpoken: ": players, swing, pedal and practice file",
  less: "Close",
  reminder: "Start softly. Rest hands and ears for a few minutes every half hour.",
  spokenLane: { upper: "upper", lower: "lower" } satisfies Readonly<Record<LaneId, string>>,
};
