/** A lane with its capo elsewhere: what it plays stays where it is on the neck. */
import type { Board, LaneId, SlotId } from "@halflap/board/board";
import type { LaneEdit } from "@halflap/board/proposal";
import { type Grip, gripOf, printGrip } from "@halflap/theory/grip";
import { neckFret, type Setup, typedFret } from "@halflap/theory/tuning";
import type { Fret } from "@halflap/theory/units";

/**
 * The changes that move the capo: the capo, then fills and the grips outside `chosen`, counted
 * anew so that they sound as before. What lies behind the new capo is left as it is written.
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
  const figures = [...fills.values()].flatMap((fill): LaneEdit[] => {
    const notes = fill.notes.map((note) => ({ ...note, fret: recounted(note.fret) ?? note.fret }));
    const isSame = notes.every((note, index) => note.fret === fill.notes[index]?.fret);
    return isSame ? [] : [{ kind: "fill", fill: { ...fill, notes } }];
  });
  return [{ kind: "capo", capo: setup.capo }, ...figures, ...held];
}

function movedGrip(grip: Grip, recounted: (played: Fret) => Fret | undefined): Grip | undefined {
  const frets = grip.frets.map((played) => (played === undefined ? undefined : recounted(played)));
  const isBehind = frets.some((moved, index) => {
    return moved === undefined && grip.frets[index] !== undefined;
  });
  return isBehind ? undefined : gripOf(frets);
}
