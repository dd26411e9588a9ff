/** A board prepared for the rules: what sounds where, what follows what, and who plays. */
import { type Board, type LaneId, laneIds } from "@halflap/board/board";
import { beatOf } from "@halflap/board/meter";
import type { SoundingChord } from "@halflap/theory/chord";
import type { Key } from "@halflap/theory/key";
import type { Setup } from "@halflap/theory/tuning";
import { type Ticks, ticksPerQuarter } from "@halflap/theory/units";
import type { Mode } from "@halflap/timeline/keeper";
import { timelineOf } from "@halflap/timeline/passages";
import type { Passage, PlayedBar, Timeline } from "@halflap/timeline/timeline";
import { type Segment, segmentsOf } from "./segments.ts";
import { type Limits, limitsOf } from "./thresholds.ts";

/** A segment whose chart symbol could be read as a sounding chord. */
export type Harmony = { readonly segment: Segment; readonly chord: SoundingChord };

/** What holds for the whole board and decides how rules judge. */
export type Frame = {
  readonly key: Key;
  /** Beats a minute. */
  readonly tempo: number;
  /** How long a beat is: a quarter in 4/4, three eighths in 6/8. */
  readonly beat: Ticks;
  readonly meter: Board["meter"];
  readonly hasBass: boolean;
  readonly blueNotes: boolean;
  readonly distorted: boolean;
  readonly setups: Readonly<Record<LaneId, Setup>>;
  /** How a sentence names the player of a lane: "Mara" or "the upper lane". */
  readonly players: Readonly<Record<LaneId, string>>;
  readonly limits: Limits;
};

/** A bar of a passage with its slots as they sound. */
export type CheckedBar = {
  readonly played: PlayedBar;
  /** The bar before it in the passage, from which a push may sound here. */
  readonly before: PlayedBar | undefined;
  readonly segments: readonly Segment[];
};

/** A passage as the rules see it. */
export type CheckedPassage = {
  readonly passage: Passage;
  readonly bars: readonly CheckedBar[];
  /** Of all its bars, in order. */
  readonly segments: readonly Segment[];
  /** The first bar of each passage that may follow in the form. */
  readonly following: readonly CheckedBar[];
};

/** What a rule about one slot may look at beyond it. */
export type Tune = Frame & {
  /** The slots that may come next: within the passage one, past its end one for each way on. */
  readonly after: (segment: Segment) => readonly Segment[];
};

/** The whole board for the rules. */
export type PreparedBoard = {
  readonly tune: Tune;
  /** The same object as long as nothing in it changed. */
  readonly frame: Frame;
  readonly passages: readonly CheckedPassage[];
};

/** Prepares boards one after another, or tries one beside the last. */
export type Preparation = (board: Board, timeline: Timeline, mode?: Mode) => PreparedBoard;

/** Prepares boards; what did not change since the last one is the same object. */
export function makePreparation(): Preparation {
  let lastFrame: Frame | undefined;
  let lastBars = new WeakMap<PlayedBar, CheckedBar>();
  let lastPassages = new Map<string, CheckedPassage>();
  return (board, timeline, mode = "keep") => {
    const frame = frameOf(board, lastFrame);
    const knownBars = frame === lastFrame ? lastBars : new WeakMap<PlayedBar, CheckedBar>();
    const checked = new Map<string, Omit<CheckedPassage, "following">>();
    for (const passage of timeline.passages) {
      const bars = passage.bars.map((played, index) =>
        checkedBar({ known: knownBars, mode }, played, passage.bars[index - 1], passage, frame),
      );
      checked.set(passage.id, {
        passage,
        bars,
        segments: bars.flatMap((bar) => bar.segments),
      });
    }
    const all = [...checked.values()];
    const passages = all.map((one) => {
      const following = all
        .filter((other) => one.passage.next.includes(other.passage.section.id))
        .flatMap((other) => other.bars.slice(0, 1));
      return sharedPassage(lastPassages.get(one.passage.id), { ...one, following });
    });
    if (mode === "keep") {
      lastFrame = frame;
      lastBars = knownBars;
      lastPassages = new Map(passages.map((one) => [one.passage.id, one]));
    }
    return { frame, passages, tune: { ...frame, after: afterIn(passages) } };
  };
}

/** A board on its own, prepared. */
export function preparedBoard(board: Board): PreparedBoard {
  return makePreparation()(board, timelineOf(board));
}

/** How long a stretch lasts at the tune's tempo, in milliseconds. */
export function msOf(stretch: number, frame: Pick<Frame, "beat" | "tempo">): number {
  return (stretch / frame.beat) * (60_000 / frame.tempo);
}

/**
 * How long a stretch is in quarter notes: what is heard goes by them, not by the beat that a meter
 * counts in.
 */
export function quartersOf(stretch: number): number {
  return stretch / ticksPerQuarter;
}

/** The chord that sounds in a segment; undefined for N.C. and for text that is no chord. */
export function soundingChord(segment: Segment): SoundingChord | undefined {
  const chord = segment.slot.chord;
  return chord?.kind === "chord" ? chord : undefined;
}

/** The nearest segments ahead on another root, one for each way the form goes on. */
export function nextRoots(tune: Tune, segment: Segment, chord: SoundingChord): readonly Harmony[] {
  const found: Harmony[] = [];
  const seen = new Set<Segment>();
  let ahead = tune.after(segment);
  while (ahead.length > 0) {
    const further: Segment[] = [];
    for (const next of ahead) {
      if (seen.has(next)) continue;
      seen.add(next);
      const nextChord = soundingChord(next);
      if (nextChord !== undefined && nextChord.rootClass !== chord.rootClass) {
        found.push({ segment: next, chord: nextChord });
      } else {
        further.push(...tune.after(next));
      }
    }
    ahead = further;
  }
  return found;
}

type Memory = { readonly known: WeakMap<PlayedBar, CheckedBar>; readonly mode: Mode };

/** A bar whose neighbour is only tried stays known as it was. */
function checkedBar(
  { known, mode }: Memory,
  played: PlayedBar,
  before: PlayedBar | undefined,
  passage: Passage,
  frame: Frame,
): CheckedBar {
  const last = known.get(played);
  if (last !== undefined && last.before === before) return last;
  const segments = segmentsOf(played, before, { ...frame, section: passage.section.id });
  const made = { played, before, segments: sharedSegments(last?.segments, segments) };
  if (mode === "keep" || last === undefined) known.set(played, made);
  return made;
}

/** A bar is new to look at when the one before it changed; its segments mostly say the same. */
function sharedSegments(
  last: readonly Segment[] | undefined,
  next: readonly Segment[],
): readonly Segment[] {
  return next.map((segment, index) => {
    const before = last?.[index];
    const isSame =
      before !== undefined && before.upper === segment.upper && before.lower === segment.lower;
    return isSame ? before : segment;
  });
}

function sharedPassage(last: CheckedPassage | undefined, next: CheckedPassage): CheckedPassage {
  const isSame =
    last !== undefined &&
    last.passage === next.passage &&
    sameItems(last.bars, next.bars) &&
    sameItems(last.following, next.following);
  return isSame ? last : next;
}

function afterIn(passages: readonly CheckedPassage[]): Tune["after"] {
  const next = new Map<Segment, readonly Segment[]>();
  for (const { segments } of passages) {
    for (let index = 1; index < segments.length; index += 1) {
      const [segment, follower] = [segments[index - 1], segments[index]];
      if (segment !== undefined && follower !== undefined) next.set(segment, [follower]);
    }
  }
  const starts = (one: CheckedPassage, seen: Set<CheckedPassage>): readonly Segment[] =>
    passages
      .filter((other) => one.passage.next.includes(other.passage.section.id))
      .flatMap((other) => {
        const first = other.segments[0];
        if (first !== undefined) return [first];
        if (seen.has(other)) return [];
        return starts(other, new Set([...seen, other]));
      });
  for (const one of passages) {
    const last = one.segments.at(-1);
    if (last !== undefined) next.set(last, starts(one, new Set()));
  }
  return (segment) => next.get(segment) ?? [];
}

function frameOf(board: Board, last: Frame | undefined): Frame {
  const { key, tempo, meter, hasBass, blueNotes, distorted, lanes } = board;
  const next: Frame = {
    key,
    tempo,
    beat: beatOf(meter),
    meter,
    hasBass,
    blueNotes,
    distorted,
    setups: { upper: lanes.upper.setup, lower: lanes.lower.setup },
    players: playersOf(board),
    limits: limitsOf(board),
  };
  return last !== undefined && isSameFrame(last, next) ? last : next;
}

/** What is the same object needs no writing out: this is asked after every edit. */
function isSameFrame(last: Frame, next: Frame): boolean {
  return Object.entries(next).every(([name, value]) => {
    const known: unknown = Reflect.get(last, name);
    return known === value || JSON.stringify(known) === JSON.stringify(value);
  });
}

/** Names tell the players apart only when both are known and differ. */
function playersOf(board: Board): Readonly<Record<LaneId, string>> {
  const nameOf = (lane: LaneId): string | undefined => {
    const owner = board.lanes[lane].owner;
    return board.members.find((member) => member.id === owner)?.name;
  };
  const [upper, lower] = laneIds.map(nameOf);
  const same = upper === lower;
  return {
    upper: upper === undefined || same ? "the upper lane" : upper,
    lower: lower === undefined || same ? "the lower lane" : lower,
  };
}

function sameItems(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((item, index) => item === b[index]);
}
