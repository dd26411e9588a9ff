/** The grips to choose from in every slot of a lane, under its wishes. */
import type { Bar, Board, Lane, LaneId, Slot, SlotId } from "@halflap/board/board";
import { type LaneWishes, usualWishes } from "@halflap/board/wishes";
import type { SoundingChord } from "@halflap/theory/chord";
import { pretty } from "@halflap/theory/display";
import { type Grip, gripOf, gripPitches, printGrip } from "@halflap/theory/grip";
import { neckFret, type Setup, typedFret } from "@halflap/theory/tuning";
import type { Fret, MidiNote } from "@halflap/theory/units";
import { type Cut, cutToSets } from "./cut.ts";
import { silentSlots, slotWords } from "./silent.ts";
import { type Asked, meetsWishes, wishedGrips } from "./wished-grips.ts";

/** More grips than this are not tried in one slot; a chord has a good two hundred as a rule. */
export const candidatesMax = 400;

/** What a slot offers a lane. */
export type SlotCandidates =
  | {
      readonly kind: "grips";
      readonly slot: Slot;
      readonly bar: Bar;
      /**
       * Frets as the lane counts them under its wished capo; the same object for slots that offer
       * the same. Empty when the wishes can't hold together here.
       */
      readonly grips: readonly Grip[];
      /** What was left out because there were too many, as a sentence. */
      readonly cut: string | undefined;
    }
  | {
      readonly kind: "none";
      readonly slot: Slot;
      readonly bar: Bar;
      /** Why nothing is chosen here. */
      readonly words: string;
    };

export type Candidates = {
  readonly lane: LaneId;
  /** The lane's guitar with the capo where it is wished. */
  readonly setup: Setup;
  /** Every slot of the chart, in its order. */
  readonly slots: ReadonlyMap<SlotId, SlotCandidates>;
};

/** What a slot offers under some wishes, the lane playing in it. */
export type Chooser = (slot: Slot, bar: Bar) => SlotCandidates;

/**
 * The grips of each slot under the lane's wishes, at most `most` in one: complete unless a slot
 * says what was cut. SPEC.md W1 to W8.
 */
export function candidatesOf(board: Board, laneId: LaneId, most = candidatesMax): Candidates {
  const { wishes } = board.lanes[laneId];
  const silent = silentSlots(board, laneId);
  const choose = chooserOf(board, laneId, wishes, most);
  const slots = new Map<SlotId, SlotCandidates>();
  for (const bar of board.sections.flatMap((section) => section.bars)) {
    for (const slot of bar.slots) {
      const words = silent.get(slot.id);
      slots.set(
        slot.id,
        words === undefined ? choose(slot, bar) : { kind: "none", slot, bar, words },
      );
    }
  }
  return { lane: laneId, setup: wishedSetup(board.lanes[laneId].setup, wishes), slots };
}

/** What slots offer a lane under these wishes, whether it plays in them or not. */
export function chooserOf(
  board: Board,
  laneId: LaneId,
  wishes: LaneWishes,
  most = candidatesMax,
): Chooser {
  const lane = board.lanes[laneId];
  const setup = wishedSetup(lane.setup, wishes);
  const asked: Asked = { wishes, setup, hasBass: board.hasBass };
  const known = new Map<string, ReturnType<typeof cutToSets>>();
  return (slot, bar) => {
    const { chord } = slot;
    const where = slotWords(slot, bar);
    const grip = lane.grips.get(slot.id);
    const present = grip && movedGrip(grip, lane.setup, setup);
    if (wishes.leaveAsIs || wishes.locked.has(slot.id)) {
      const grips = present === undefined ? [] : [present];
      const words = `${where}: no grip stands there, and it is to stay so.`;
      return grip === undefined
        ? { kind: "none", slot, bar, words }
        : { kind: "grips", slot, bar, grips, cut: undefined };
    }
    if (chord?.kind !== "chord") {
      return { kind: "none", slot, bar, words: `${where}: no chord to play.` };
    }
    const top = wishes.keepTop && grip ? topOf(grip, lane.setup) : undefined;
    const held = present && meetsWishes(present, chord, asked) ? present : undefined;
    const question = [chord.symbol, top ?? "", held ? printGrip(held) : ""].join(" ");
    const found = known.get(question) ?? cutToSets(listed(chord, asked, top, held), held, most);
    known.set(question, found);
    if (found.grips.length === 0 && !isMakeable(chord, lane, board.hasBass)) {
      const words = `${where}: no small grip makes it on this guitar.`;
      return { kind: "none", slot, bar, words };
    }
    const cut = found.cut && cutWords(where, found.cut, found.grips.length);
    return { kind: "grips", slot, bar, grips: found.grips, cut };
  };
}

/** All that is wished, with the grip of now at the end where it is not among them. */
function listed(
  chord: SoundingChord,
  asked: Asked,
  top: MidiNote | undefined,
  held: Grip | undefined,
): readonly Grip[] {
  const all = wishedGrips(chord, asked);
  const grips = top === undefined ? all : all.filter((grip) => topOf(grip, asked.setup) === top);
  if (held === undefined) return grips;
  const text = printGrip(held);
  return grips.some((grip) => printGrip(grip) === text) ? grips : [...grips, held];
}

/** Whether the chord has any grip while nothing special is wished. */
function isMakeable(chord: SoundingChord, { setup }: Lane, hasBass: boolean): boolean {
  return wishedGrips(chord, { wishes: usualWishes, setup, hasBass }).length > 0;
}

/** A part that stays as it is keeps its capo too. */
function wishedSetup(setup: Setup, { capo, leaveAsIs }: LaneWishes): Setup {
  return capo === undefined || leaveAsIs ? setup : { ...setup, capo };
}

/**
 * The same strings at the same places of the neck over another capo; undefined when one of them
 * lies behind it.
 */
function movedGrip(grip: Grip, from: Setup, to: Setup): Grip | undefined {
  if (from.capo === to.capo) return grip;
  const frets: (Fret | undefined)[] = [];
  for (const played of grip.frets) {
    const place = played === undefined ? undefined : neckFret(from, played);
    if (played !== undefined && (place === undefined || place < to.capo)) return undefined;
    frets.push(place === undefined ? undefined : typedFret(to, place));
  }
  return gripOf(frets);
}

function topOf(grip: Grip, setup: Setup): MidiNote | undefined {
  return gripPitches(grip, setup).at(-1);
}

function cutWords(where: string, { of, sets }: Cut, kept: number): string {
  return (
    `${where} has ${of} grips; the ${kept} on strings ${pretty(sets.join(", "))} were tried. ` +
    "Wish for strings to say which."
  );
}
