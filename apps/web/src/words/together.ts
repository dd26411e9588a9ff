/** Words of playing together: who plays, who hears it, how well the clocks agree. */
import { listInWords } from "./list-in-words.ts";

/** What the strip about playing together says. */
export const togetherWords = {
  name: "Playing together",
  start: "Play for everybody",
  startHint: "Whoever has the board open is asked to hear it too",
  away: "The server is not in reach, so nobody else would hear it",
  stop: "Stop for all",
  leave: "Stop only here",
  joinIn: "Hear it too",
  plays: (names: readonly string[]) =>
    `${listInWords(names)} ${names.length > 1 ? "are" : "is"} playing`,
  playsElsewhere: "You are playing elsewhere",
  somebody: "Somebody",
  at: (bar: number, section: string) => `bar ${bar}, ${section}`,
  jump: (bar: number) => `Go to bar ${bar}`,
  jumpHint: "Everybody goes there when this bar is over",
  alone: "Playing for everybody. Nobody else listens along yet.",
  with: (names: readonly string[], withinMs: number) =>
    `Together with ${listInWords(names)}, within ${withinMs} ms`,
  partlyLost: "Part of the line is lost: others may play on alone until it is back.",
  agreeing: "Agreeing on the time …",
  lost: "The line is lost: you play on alone until it is back.",
  trouble: {
    unreached: "The server could not be reached, so it was not played for anybody.",
    nothing: "Nothing to play: the form does not come to any bar.",
  },
  nudge: "Shift my sound",
  nudgeUnit: "ms later",
  nudgeHint:
    "For playing together, when you hear yourself before or after the others all the same: " +
    "loudspeakers and lines hide a delay that no clock can see. Wireless headphones need a minus.",
} as const;
