/** What a player asks of the fit, in the terms of the panel, and the request that it comes to. */
import type { Board, LaneId, SectionId } from "@halflap/board/board";
import { laneIds } from "@halflap/board/board";
import type { FitRequest, LeaningName } from "@halflap/fitter/answer";

/** The lane that is fitted around the other, or both at once. */
export type Whose = LaneId | "both";

export type FitAsk = {
  readonly whose: Whose;
  readonly leaning: LeaningName;
  readonly answers: number;
  /** undefined = the whole tune. */
  readonly sections: ReadonlySet<SectionId> | undefined;
};

/** How many answers can be chosen in the panel. */
export const answerCounts = [1, 2, 3, 4, 5] as const;

/** The everyday case: my part around the other's, three answers, the whole tune. */
export function everydayAsk(own: LaneId | undefined): FitAsk {
  return { whose: own ?? "both", leaning: "plain", answers: 3, sections: undefined };
}

/** The request; undefined when it leaves nothing to fit. */
export function requestOf(
  ask: FitAsk,
  board: Pick<Board, "sections" | "lanes">,
): FitRequest | undefined {
  const wanted = ask.whose === "both" ? laneIds : [ask.whose];
  const lanes = wanted.filter((lane) => !board.lanes[lane].wishes.leaveAsIs);
  const { sections } = ask;
  const bars =
    sections &&
    board.sections.filter(({ id }) => sections.has(id)).flatMap(({ bars: inside }) => inside);
  if (lanes.length === 0 || bars?.length === 0) return undefined;
  const { leaning, answers } = ask;
  return { lanes, leaning, answers, bars: bars?.map(({ id }) => id) };
}
