/** What is tried as a way out, and what its makers look at. */
import type { Bar, Board, LaneId, Section, Slot } from "@halflap/board/board";
import type { LaneEdit } from "@halflap/board/proposal";
import type { SoundingChord } from "@halflap/theory/chord";
import type { Grip } from "@halflap/theory/grip";
import type { Setup } from "@halflap/theory/tuning";
import type { Finding } from "../finding.ts";
import type { Segment } from "../segments.ts";
import type { CheckedPassage, Tune } from "../tune.ts";

/** What a way out changes: ways of one kind are alike to the player. */
export type WayKind =
  | "grip"
  | "double stop"
  | "run"
  | "strings"
  | "octave"
  | "capo"
  | "kept"
  | "rest"
  | "strum"
  | "feel"
  | "fill moved"
  | "fill cut"
  | "fill gone"
  | "fill note"
  | "dynamic"
  | "mute";

/** Changes to one lane that may help; nobody has tried them yet. */
export type Candidate = {
  readonly kind: WayKind;
  readonly lane: LaneId;
  readonly edits: readonly LaneEdit[];
  readonly words: string;
  /** What falls silent by it, weighed as findings are. */
  readonly loss: number;
};

/** A slot of the finding with what the lane plays in it and beside it. */
export type Place = {
  readonly slot: Slot;
  readonly bar: Bar;
  readonly section: Section;
  readonly chord: SoundingChord | undefined;
  readonly grip: Grip | undefined;
  /** The lane's grips in the slots before and after, within the section. */
  readonly before: Grip | undefined;
  readonly after: Grip | undefined;
  /** As it sounds, on a pass on which both lanes sound if there is one. */
  readonly segment: Segment;
};

/** A finding seen from one lane. */
export type Situation = {
  readonly board: Board;
  readonly finding: Finding;
  readonly lane: LaneId;
  readonly setup: Setup;
  readonly tune: Tune;
  /** The slots of the finding in chart order. */
  readonly places: readonly Place[];
  /** The bars of the finding in chart order. */
  readonly bars: readonly Bar[];
  /** The ways in which the finding's section is played. */
  readonly passages: readonly CheckedPassage[];
};

/** Finds changes of one kind that may help; most to be hoped for first. */
export type WayOutMaker = (situation: Situation) => readonly Candidate[];

/** The other lane. */
export function otherLane(lane: LaneId): LaneId {
  return lane === "upper" ? "lower" : "upper";
}

/** "bar 3", "bars 3 to 6", "bars 3, 5 and 8". */
export function barWords(bars: readonly Bar[]): string {
  const numbers = [...new Set(bars.map((bar) => bar.number))].sort((a, b) => a - b);
  const [first = 0] = numbers;
  const last = numbers.at(-1) ?? first;
  if (numbers.length < 2) return `bar ${first}`;
  if (numbers.length > 2 && last - first === numbers.length - 1) return `bars ${first} to ${last}`;
  return `bars ${numbers.slice(0, -1).join(", ")} and ${last}`;
}
