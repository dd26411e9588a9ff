/** What starts beyond the end of its bar, and so is left out of what is played (repair B25). */
import { type Board, type LaneId, laneIds, type Waiting } from "./board.ts";
import type { ChartIds } from "./chart-ids.ts";
import type { FillId } from "./ids.ts";
import { type LaneStore, waitingIn } from "./lane-store.ts";
import { fillsMax, gapOwnersMax, phrasesMax, setAsideMax } from "./limits.ts";
import type { Fill } from "./playing.ts";
import { storedFills } from "./playing-state.ts";
import type { LaneEdit } from "./proposal.ts";
import { type SongTables, storedGapOwners, storedPhrases } from "./singing-state.ts";

/** Fills of the upper and the lower lane, phrases, then owners of gaps, each by their bars. */
export function waitingOf(
  song: Pick<SongTables, "phrases" | "gapOwners">,
  lanes: Readonly<Record<LaneId, Pick<LaneStore, "fills">>>,
  chart: Pick<ChartIds, "bars" | "lengths">,
): readonly Waiting[] {
  const fills = laneIds.flatMap((lane) =>
    waitingFills(lane, storedFills(lanes[lane].fills), chart),
  );
  const phrases = waitingIn(storedPhrases(song), chart, startOf, phrasesMax).map(
    ({ id, bar, start }): Waiting => ({ kind: "phrase", id, bar, start }),
  );
  const gaps = waitingIn(storedGapOwners(song), chart, ({ at }) => at, gapOwnersMax).map(
    ({ id, bar, at }): Waiting => ({ kind: "gap", id, bar, start: at }),
  );
  return [...fills, ...phrases, ...gaps].slice(0, setAsideMax);
}

/** What waits once a lane's stored fills are those of `fills`, changed by these edits. */
export function waitingAfter(
  { setAside }: Pick<Board, "setAside">,
  lane: LaneId,
  edits: readonly LaneEdit[],
  fills: LaneStore["fills"],
  chart: Pick<ChartIds, "bars" | "lengths">,
): readonly Waiting[] {
  const touched = new Set<string>(edits.flatMap((edit) => fillOf(edit) ?? []));
  const before = (at: LaneId) =>
    setAside.waiting.flatMap((each) => (isFill(each) && each.lane === at ? [each] : []));
  const untouched = before(lane).filter(({ id }) => !touched.has(id));
  const after = waitingFills(lane, [...untouched, ...storedFills(fills)], chart);
  const inLanes = laneIds.flatMap((each) => (each === lane ? after : before(each)));
  const others = setAside.waiting.filter((each) => !isFill(each));
  return [...inLanes, ...others].slice(0, setAsideMax);
}

type WaitingFill = Extract<Waiting, { readonly lane: LaneId }>;

function waitingFills(
  lane: LaneId,
  fills: readonly Pick<Fill, "kind" | "id" | "bar" | "start">[],
  chart: Pick<ChartIds, "bars" | "lengths">,
): readonly WaitingFill[] {
  return waitingIn(fills, chart, startOf, fillsMax).map(({ kind, id, bar, start }) => {
    return { kind, id, lane, bar, start };
  });
}

function startOf({ start }: { readonly start: number }): number {
  return start;
}

function isFill(waiting: Waiting): waiting is WaitingFill {
  return "lane" in waiting;
}

function fillOf(edit: LaneEdit): FillId | undefined {
  if (edit.kind === "fill") return edit.fill.id;
  return edit.kind === "fill-gone" ? edit.fill : undefined;
}
