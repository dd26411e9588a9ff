/** What a player asks of the fit, in the terms of the panel, and the request that it comes to. */
import type { BarId, Board, LaneId, SectionId } from "@halflap/board/board";
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

/** Without the sections that are gone from the chart; the same object while none is. */
export function standingAsk(ask: FitAsk, { sections }: Pick<Board, "sections">): FitAsk {
  if (ask.sections === undefined) return ask;
  const there = new Set(sections.map(({ id }) => id));
  const stand = new Set([...ask.sections].filter((id) => there.has(id)));
  return stand.size === ask.sections.size ? ask : { ...ask, sections: stand };
}

/** Whether the same is asked. */
export function sameAsk(one: FitAsk, other: FitAsk): boolean {
  if (one === other) return true;
  const [a, b] = [one.sections, other.sections];
  return (
    one.whose === other.whose &&
    one.leaning === other.leaning &&
    one.answers === other.answers &&
    (a && b ? a.size === b.size && [...a].every((id) => b.has(id)) : a === b)
  );
}

/** Why there is nothing to fit; undefined when there is something. */
export function whyNothing(
  ask: FitAsk,
  board: Pick<Board, "sections" | "lanes">,
): "no section" | "no bars" | "nothing free" | undefined {
  if (ask.sections?.size === 0) return "no section";
  if (barsOf(ask, board)?.length === 0) return "no bars";
  return lanesOf(ask, board).length === 0 ? "nothing free" : undefined;
}

/** The request; undefined when it leaves nothing to fit. */
export function requestOf(
  ask: FitAsk,
  board: Pick<Board, "sections" | "lanes">,
): FitRequest | undefined {
  if (whyNothing(ask, board) !== undefined) return undefined;
  const { leaning, answers } = ask;
  return { lanes: lanesOf(ask, board), leaning, answers, bars: barsOf(ask, board) };
}

function lanesOf({ whose }: FitAsk, { lanes }: Pick<Board, "lanes">): readonly LaneId[] {
  const wanted = whose === "both" ? laneIds : [whose];
  return wanted.filter((lane) => !lanes[lane].wishes.leaveAsIs);
}

/** undefined = all there are. */
function barsOf({ sections }: FitAsk, board: Pick<Board, "sections">): BarId[] | undefined {
  if (sections === undefined) return undefined;
  const picked = board.sections.filter(({ id }) => sections.has(id));
  return picked.flatMap(({ bars }) => bars.map(({ id }) => id));
}
