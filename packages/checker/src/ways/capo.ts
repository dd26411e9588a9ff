/** A grip held as if the capo were not there: the same chord, with the capo counted. */
import { printGrip } from "@halflap/theory/grip";
import { moveGrip } from "@halflap/theory/move-grip";
import { semitones } from "@halflap/theory/units";
import { barWords, type Candidate, type WayOutMaker } from "./candidate.ts";

/** Where the shape can't be held that far down, so many grips near it are tried. */
const nearest = 4;

/** The grips lowered by the capo; where the neck ends above, the nearest of the same chord. */
export const capoCounted: WayOutMaker = ({ board, lane, places, setup }) => {
  const { capo } = setup;
  if (capo === 0) return [];
  return Array.from({ length: nearest }, (_, choice) => choice).flatMap((choice): Candidate[] => {
    const edits: Candidate["edits"][number][] = [];
    const grips: string[] = [];
    for (const { slot, grip, chord } of places) {
      if (grip === undefined || chord === undefined) continue;
      const moved = moveGrip(grip, setup, semitones(-capo), chord, board.hasBass);
      const choices =
        moved.kind === "moved" ? [moved.grip] : moved.kind === "replaced" ? moved.choices : [];
      const next = choices[choice];
      if (next === undefined) return [];
      edits.push({ kind: "grip", slot: slot.id, grip: printGrip(next) });
      grips.push(printGrip(next));
    }
    if (edits.length === 0) return [];
    const where = barWords(places.map(({ bar }) => bar));
    const words = `Count the capo on fret ${capo} in ${where}: ${grips.join(", ")}`;
    return [{ kind: "capo", lane, edits, words, loss: 0 }];
  });
};
