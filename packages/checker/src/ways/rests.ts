/** Laying out: one plays, the other listens. */
import { barWords, type WayOutMaker } from "./candidate.ts";
import { weights } from "./weights.ts";

/** The lane rests in the bars of the finding. */
export const layOuts: WayOutMaker = ({ board, lane, bars }) => {
  const played = bars.filter((bar) => !board.lanes[lane].layOuts.has(bar.id));
  if (played.length === 0) return [];
  return [
    {
      kind: "rest",
      lane,
      edits: played.map((bar) => ({ kind: "lay-out", bar: bar.id, rest: true })),
      words: `Lay out in ${barWords(played)}`,
      loss: played.length * weights.fix,
    },
  ];
};
