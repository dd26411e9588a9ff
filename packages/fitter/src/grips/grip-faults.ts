/** What the checker says of a grip by itself: another chord, a forgotten capo, a hand too small. */
import type { Board, LaneId } from "@halflap/board/board";
import { barId, sectionId, slotId } from "@halflap/board/ids";
import { capoMismatch } from "@halflap/checker/capo-mismatch";
import type { Severity } from "@halflap/checker/finding";
import { foreignTones } from "@halflap/checker/foreign-tones";
import { forgetsCapo } from "@halflap/checker/forgotten-capo";
import type { Segment } from "@halflap/checker/segments";
import type { CheckedPassage, Frame, Tune } from "@halflap/checker/tune";
import { unplayableGrip } from "@halflap/checker/unplayable-grip";
import type { SoundingChord } from "@halflap/theory/chord";
import { ticks } from "@halflap/theory/units";
import type { HeldGrip } from "./held-grip.ts";

/** The gravest that each rule says; undefined = nothing. */
export type Faults = {
  /** R30. */
  readonly hand: Severity | undefined;
  /** R13, pedals left out: whether one is held is known only with the grips beside it. */
  readonly foreign: Severity | undefined;
  /** R14. */
  readonly capo: Severity | undefined;
  /** Its notes are not what anybody meant: R08 leaves them out. */
  readonly forgetsCapo: boolean;
};

type Question = {
  readonly chord: SoundingChord;
  readonly lane: LaneId;
  readonly frame: Frame;
  /** Whether some tone lies outside the chord. */
  readonly isForeign: boolean;
};

const longBeats = 4;

/** Asks the rules themselves; those that can't speak are spared. */
export function faultsOf(held: HeldGrip, { chord, lane, frame, isForeign }: Question): Faults {
  const hand = handFault(held, lane, frame);
  const { capo, fretsFrom } = frame.setups[lane];
  if (!isForeign && (capo === 0 || fretsFrom === "capo")) {
    return { hand, foreign: undefined, capo: undefined, forgetsCapo: false };
  }
  const segment = segmentOf(held, chord, lane, frame);
  const tune: Tune = { ...frame, after: () => [] };
  const passage: CheckedPassage = {
    passage: {
      ...{ id: "", section: emptySection, bars: [], length: segment.slot.length },
      ...{ sung: [], gaps: [], next: [], endsTune: false },
    },
    ...{ bars: [], segments: [segment], following: [] },
  };
  return {
    hand,
    foreign: foreignTones(passage, tune)[0]?.severity,
    capo: capoMismatch(segment, tune)[0]?.severity,
    forgetsCapo: forgetsCapo(segment, tune, lane),
  };
}

const hands = new WeakMap<Frame["limits"], WeakMap<HeldGrip, { readonly says?: Severity }>>();

/** What a hand can't hold has nothing to do with the chord. */
function handFault(held: HeldGrip, lane: LaneId, frame: Frame): Severity | undefined {
  const known = hands.get(frame.limits) ?? new WeakMap();
  hands.set(frame.limits, known);
  const last = known.get(held);
  if (last !== undefined) return last.says;
  const segment = segmentOf(held, undefined, lane, frame);
  const says = unplayableGrip(segment, { ...frame, after: () => [] })[0]?.severity;
  known.set(held, { says });
  return says;
}

const askedSlot = slotId("asked");
const askedBar = barId("asked");
const emptySection: Board["sections"][number] = {
  ...{ id: sectionId("asked"), name: "", borrows: undefined, bars: [] },
};

/** A slot in which only the grip sounds, long enough for all rules. */
function segmentOf(
  { grip, pitches }: HeldGrip,
  chord: SoundingChord | undefined,
  lane: LaneId,
  { beat }: Frame,
): Segment {
  const length = ticks(longBeats * beat);
  const slot = { id: askedSlot, start: ticks(0), length, text: "", chord };
  const bar = { id: askedBar, number: 1, length, rounds: undefined, slots: [slot] };
  // Written out, not spread: there is one for every grip of every list.
  const isUpper = lane === "upper";
  return {
    slot,
    bar,
    section: emptySection.id,
    start: slot.start,
    beats: longBeats,
    aims: [],
    upper: isUpper ? pitches : undefined,
    lower: isUpper ? undefined : pitches,
    grips: isUpper ? { upper: grip, lower: undefined } : { upper: undefined, lower: grip },
    figures: { upper: [], lower: [] },
    rests: { upper: false, lower: false },
    share: undefined,
    meanGap: undefined,
  };
}
