/** A lane with its capo elsewhere: what it plays sounds as before. */
import type { Bar, Board, LaneId, Slot, SlotId } from "@halflap/board/board";
import type { Fill } from "@halflap/board/playing";
import type { LaneEdit } from "@halflap/board/proposal";
import { listed } from "@halflap/checker/words";
import { pretty } from "@halflap/theory/display";
import { type Grip, gripOf, printGrip } from "@halflap/theory/grip";
import { accidentalsOf } from "@halflap/theory/key";
import { pitchName } from "@halflap/theory/pitch";
import { neckFret, type Setup, typedFret } from "@halflap/theory/tuning";
import type { Fret } from "@halflap/theory/units";
import { type MovedFill, movedFill } from "./moved-fill.ts";
import { slotWords } from "./silent.ts";

/**
 * The changes that move the capo: the capo, then fills and the grips outside `chosen`, counted
 * anew so that they sound as before. Notes of fills behind the new capo go to another string; a
 * grip there, and a note that no string has, is left as it is written.
 */
export function capoEdits(
  board: Board,
  lane: LaneId,
  setup: Setup,
  chosen: ReadonlySet<SlotId>,
): readonly LaneEdit[] {
  const { setup: before, grips, fills } = board.lanes[lane];
  if (setup.capo === before.capo) return [];
  const recounted = (played: Fret) => {
    const place = neckFret(before, played);
    return place === undefined || place < setup.capo ? undefined : typedFret(setup, place);
  };
  const held = [...grips].flatMap(([slot, grip]): LaneEdit[] => {
    const moved = chosen.has(slot) ? undefined : movedGrip(grip, recounted);
    const isSame = moved === undefined || printGrip(moved) === printGrip(grip);
    return isSame ? [] : [{ kind: "grip", slot, grip: printGrip(moved) }];
  });
  const figures = [...fills.values()].flatMap((written): LaneEdit[] => {
    const { fill } = movedFill(written, before, setup);
    return isSameOnNeck(fill, written) ? [] : [{ kind: "fill", fill }];
  });
  return [{ kind: "capo", capo: setup.capo }, ...figures, ...held];
}

/** What the capo leaves no place for: the slots in which such fills begin, and why. */
export function lostNotes(
  board: Board,
  lane: LaneId,
  setup: Setup,
): readonly { readonly slot: SlotId; readonly words: string }[] {
  const { setup: before, fills } = board.lanes[lane];
  if (setup.capo === before.capo) return [];
  const bars = board.sections.flatMap((section) => section.bars);
  return [...fills.values()].flatMap((fill) => {
    const { lost } = movedFill(fill, before, setup);
    const bar = bars.find(({ id }) => id === fill.bar);
    const slot = bar?.slots.filter(({ start }) => start <= fill.start).at(-1);
    if (lost.length === 0 || bar === undefined || slot === undefined) return [];
    return [{ slot: slot.id, words: lostWords(lost, board, { slot, bar, capo: setup.capo }) }];
  });
}

function lostWords(
  lost: MovedFill["lost"],
  { key }: Board,
  { slot, bar, capo }: { readonly slot: Slot; readonly bar: Bar; readonly capo: Fret },
): string {
  const notes = [...new Set(lost)].map((pitch) => pretty(pitchName(pitch, accidentalsOf(key))));
  const where = `${slotWords(slot, bar)}: with the capo on fret ${capo}`;
  return `${where} no string is free for the fill's ${listed(notes)}.`;
}

function isSameOnNeck(one: Fill, other: Fill): boolean {
  return one.notes.every(({ string, fret }, index) => {
    const note = other.notes[index];
    return note?.string === string && note.fret === fret;
  });
}

function movedGrip(grip: Grip, recounted: (played: Fret) => Fret | undefined): Grip | undefined {
  const frets = grip.frets.map((played) => (played === undefined ? undefined : recounted(played)));
  const isBehind = frets.some((moved, index) => {
    return moved === undefined && grip.frets[index] !== undefined;
  });
  return isBehind ? undefined : gripOf(frets);
}
