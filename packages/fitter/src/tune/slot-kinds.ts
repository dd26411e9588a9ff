/** What the rules may know of a slot beside its two grips: one kind for each way it is played. */
import { type Board, type LaneId, laneIds, type SlotId } from "@halflap/board/board";
import type { RuleId, Severity } from "@halflap/checker/finding";
import {
  isAtRest,
  isSecondaryDominant,
  isStaticDegree,
  resolvesTo,
} from "@halflap/checker/function";
import { isLong } from "@halflap/checker/rub";
import { hasAim, isPair, type Segment } from "@halflap/checker/segments";
import { finalSegment, isExempt } from "@halflap/checker/shelves";
import { type CheckedBar, nextRoots, soundingChord, type Tune } from "@halflap/checker/tune";
import type { SoundingChord } from "@halflap/theory/chord";
import { pitchClass } from "@halflap/theory/units";
import { type ChordQuestion, questionOf } from "../grips/grip-sound.ts";
import type { Played } from "./played.ts";
import { type VoiceLoad, voiceLoads } from "./voice-load.ts";

export type SlotKind = {
  readonly question: ChordQuestion;
  readonly sounding: "both" | LaneId;
  /** Too short for R10 and R13. */
  readonly isPassing: boolean;
  readonly isUnison: boolean;
  /** R01 and R16 leave the slot alone. */
  readonly isShelfFree: boolean;
  readonly isCrossFree: boolean;
  /** Classes that fills and lines sound here, and a notated bass: one bit each. R07. */
  readonly helped: number;
  /** One guitar plays, the other rests by design, and no bass helps out. R07. */
  readonly isAlone: boolean;
  /** What the leading tone in both parts is: the fix where both could step up at once. R05. */
  readonly leading: Severity | undefined;
  /** The chord is the dominant of another chord than I. R07. */
  readonly isSecondary: boolean;
  /** A seventh on I or IV is colour. R04. */
  readonly isStatic: boolean;
  /** Both parts go on from here. R15. */
  readonly goesOn: boolean;
  readonly voice: VoiceLoad | undefined;
  /** Whose players sing here. */
  readonly singing: readonly LaneId[];
  readonly silenced: ReadonlySet<string>;
};

/** A kind with how often it is played, and a name that is equal for equal kinds. */
export type TimedKind = { readonly kind: SlotKind; readonly times: number; readonly key: string };

/** The rules whose silences count: all that a slot's cost is made of. */
const rules: readonly RuleId[] = [
  ...(["R01", "R02", "R03", "R04", "R05", "R06", "R07", "R08", "R09"] as const),
  ...(["R10", "R11", "R13", "R14", "R16", "R27", "R30"] as const),
];

/** The kinds of each slot that has a chord and sounds, in the order of the passages. */
export function slotKinds(board: Board, played: Played): ReadonlyMap<SlotId, readonly TimedKind[]> {
  const kinds = new Map<SlotId, TimedKind[]>();
  for (const { passage, times } of played.passages) {
    const voices = voiceLoads(passage, played.tune);
    const final = finalSegment(passage);
    for (const bar of passage.bars) {
      for (const segment of bar.segments) {
        const chord = soundingChord(segment);
        const sounding = soundingIn(segment);
        if (chord === undefined || sounding === undefined) continue;
        const { id } = segment.slot;
        const load = voices.get(segment);
        const place = { bar, segment, chord, sounding, isFinal: segment === final };
        const kind = kindOf(board, played.tune, place, load);
        addTo(kinds, id, { kind, times, key: keyOf(kind) });
      }
    }
  }
  return kinds;
}

function soundingIn(segment: Segment): SlotKind["sounding"] | undefined {
  if (isPair(segment)) return "both";
  return laneIds.find((lane) => segment[lane] !== undefined);
}

type Place = {
  readonly bar: CheckedBar;
  readonly segment: Segment;
  readonly chord: SoundingChord;
  readonly sounding: SlotKind["sounding"];
  readonly isFinal: boolean;
};

function kindOf(
  board: Board,
  tune: Tune,
  { bar, segment, chord, sounding, isFinal }: Place,
  load: ReturnType<ReturnType<typeof voiceLoads>["get"]>,
): SlotKind {
  const isUnison = hasAim(segment, "unison");
  const figures = laneIds.flatMap((lane) => segment.figures[lane]);
  const helped = figures.reduce<number>((bits, pitch) => bits | (1 << pitchClass(pitch)), 0);
  const next = nextRoots(tune, segment, chord);
  const silenced = rules.filter((rule) =>
    board.silences.some((each) => each.rule === rule && each.bars.includes(segment.bar.id)),
  );
  return {
    question: questionFor(chord),
    sounding,
    isPassing: !isLong(segment.slot.length, tune.limits),
    isUnison,
    isShelfFree: isFinal || isExempt(bar),
    isCrossFree: isFinal || isUnison || hasAim(segment, "weave"),
    helped: tune.hasBass ? helped | (1 << chord.bassClass) : helped,
    isAlone: !tune.hasBass && laneIds.some((lane) => segment.rests[lane]),
    leading: leadingIn(tune, segment, chord, next),
    isSecondary: next.some((goal) => isSecondaryDominant(chord, goal.chord, tune.key)),
    isStatic: isStaticDegree(chord, tune.key),
    goesOn: tune.after(segment).some(isPair),
    voice: load?.voice,
    singing: load?.singing ?? [],
    silenced: new Set(silenced),
  };
}

function leadingIn(
  tune: Tune,
  segment: Segment,
  chord: SoundingChord,
  next: ReturnType<typeof nextRoots>,
): Severity | undefined {
  const goals = next.filter(
    (goal) => resolvesTo(chord, goal.chord) && !isAtRest(chord, goal.chord, tune.key),
  );
  if (goals.length === 0) return undefined;
  const after = tune.after(segment);
  return goals.some((goal) => isPair(goal.segment) && after.includes(goal.segment))
    ? "fix"
    : "look";
}

const questions = new WeakMap<SoundingChord, ChordQuestion>();

function questionFor(chord: SoundingChord): ChordQuestion {
  const known = questions.get(chord) ?? questionOf(chord);
  questions.set(chord, known);
  return known;
}

function addTo(kinds: Map<SlotId, TimedKind[]>, slot: SlotId, timed: TimedKind): void {
  const known = kinds.get(slot) ?? [];
  const same = known.findIndex(({ key }) => key === timed.key);
  const before = known[same];
  if (before === undefined) known.push(timed);
  else known[same] = { ...before, times: before.times + timed.times };
  kinds.set(slot, known);
}

function keyOf({ question, silenced, ...rest }: SlotKind): string {
  return JSON.stringify([question.chord.symbol, [...silenced], rest]);
}
