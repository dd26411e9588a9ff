/** A grip chosen for an older chord that does for the new one too. */
import { pretty } from "@halflap/theory/display";
import { printGrip } from "@halflap/theory/grip";
import { barWords, type WayOutMaker } from "./candidate.ts";

/** The grips stay, chosen anew for the chords that stand there now, unless they are wrong. */
export const keptGrips: WayOutMaker = ({ finding, lane, places }) => {
  if (finding.severity === "stop") return [];
  const held = places.flatMap(({ slot, bar, grip }) =>
    grip === undefined ? [] : [{ slot, bar, text: printGrip(grip) }],
  );
  const [first] = held;
  if (first === undefined) return [];
  const what = held.length === 1 ? `${first.text} for ${pretty(first.slot.text)}` : "the grips";
  return [
    {
      kind: "kept",
      lane,
      edits: held.map(({ slot, text }) => ({ kind: "grip", slot: slot.id, grip: text })),
      words: `Keep ${what} in ${barWords(held.map(({ bar }) => bar))}`,
      loss: 0,
    },
  ];
};
