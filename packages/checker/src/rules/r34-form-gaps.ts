/** R34: something is missing in the form, or in what a lane plays to it. */
import { type Board, type Lane, type LaneId, laneIds } from "@halflap/board/board";
import { remembered } from "@halflap/board/remembered";
import { barRuns, forBars } from "../bar-runs.ts";
import { formFaults } from "../form-faults.ts";
import type { BoardRule, Hit } from "../hit.ts";
import { hitOfReasons, type Reason } from "../reasons.ts";
import type { Segment } from "../segments.ts";
import type { CheckedBar, CheckedPassage, PreparedBoard } from "../tune.ts";
import { counted } from "../words.ts";

/** Something to say, and where; what starts in one slot for the same lanes is said at once. */
type Placed = {
  readonly passage: CheckedPassage;
  readonly lanes: readonly LaneId[];
  readonly reason: Reason;
};

/** Faults of the form, bars that wait for a grip, and entries of a lane that lost their place. */
export const formGaps: BoardRule = (prepared, board) => {
  const groups = new Map<string, Placed[]>();
  const faults = formFaults(prepared, board).map(
    ({ passage, segment, ...fault }): Placed => ({
      ...{ passage, lanes: laneIds },
      reason: { ...fault, segments: [segment], notes: [] },
    }),
  );
  const ofLanes = laneIds.flatMap((lane) => [
    ...gripGaps(prepared, lane),
    ...lostEntries(prepared, board, lane),
  ]);
  for (const placed of [...faults, ...ofLanes]) {
    const { passage, lanes, reason } = placed;
    const key = `${passage.passage.id} ${lanes.join()} ${reason.segments[0]?.slot.id}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [placed]);
    else group.push(placed);
  }
  return [...groups.values()].flatMap((group) => hitOf(group));
};

function hitOf(group: readonly Placed[]): readonly Hit[] {
  const [first] = group;
  if (first === undefined) return [];
  const reasons = group.map(({ reason }) => reason);
  return hitOfReasons(first.passage, { rule: "R34", lanes: first.lanes }, reasons);
}

/** Runs of bars with a chord for which the lane has nothing to play, though it has elsewhere. */
function gripGaps({ passages, tune }: PreparedBoard, lane: LaneId): readonly Placed[] {
  const hasParts = passages.some(({ segments }) => segments.some(({ grips }) => grips[lane]));
  if (!hasParts) return [];
  return passages.flatMap((passage) =>
    barRuns(passage, (bar) => (gapsIn(bar)[lane].length > 0 ? "open" : undefined)).map((run) => {
      const segments = run.bars.flatMap((bar) => gapsIn(bar)[lane]);
      const chords = segments.length === 1 ? "this chord" : `${counted(segments.length)} chords`;
      const where = run.bars.length === 1 ? "" : ` ${forBars(run).replace("For", "in")}`;
      return {
        ...{ passage, lanes: [lane] },
        reason: {
          ...{ severity: "look", segments, notes: [], measured: segments.length, threshold: 1 },
          words: `${tune.players[lane]} has no grip yet for ${chords}${where}`,
        },
      };
    }),
  );
}

/** The chords of a bar without grip, fill or line, where the lane does not rest. */
const gapsIn = remembered((bar: CheckedBar) => {
  const isGap = (lane: LaneId) => (segment: Segment) =>
    segment.grips[lane] === undefined &&
    !segment.rests[lane] &&
    segment.slot.chord?.kind !== "no-chord" &&
    !bar.played.lanes[lane].figures.some(
      ({ start, end }) =>
        start < segment.slot.start + segment.slot.length && end > segment.slot.start,
    );
  return {
    upper: bar.segments.filter(isGap("upper")),
    lower: bar.segments.filter(isGap("lower")),
  };
});

/** What a lane has for bars and slots that no longer stand: kept, but played nowhere. */
function lostEntries(
  { passages, tune }: PreparedBoard,
  board: Board,
  lane: LaneId,
): readonly Placed[] {
  const passage = passages.find(({ segments }) => segments.length > 0);
  const segment = passage?.segments[0];
  const lost = lostIn(board, board.lanes[lane]);
  if (passage === undefined || segment === undefined || lost === 0) return [];
  const things = lost === 1 ? "a grip or mark" : `${counted(lost)} grips or marks`;
  return [
    {
      ...{ passage, lanes: [lane] },
      reason: {
        ...{ severity: "note", segments: [segment], notes: [], measured: lost, threshold: 1 },
        words: `${tune.players[lane]} still has ${things} for bars that are off the board`,
      },
    },
  ];
}

/** The ids of all bars and slots that stand. */
const standing = remembered((sections: Board["sections"]) => {
  const bars = sections.flatMap((section) => section.bars);
  const slots = bars.flatMap((bar) => bar.slots);
  return new Set<string>([...bars, ...slots].map(({ id }) => id));
});

function lostIn({ sections }: Board, lane: Lane): number {
  const onBars = [
    ...lane.layOuts,
    ...lane.marks.keys(),
    ...[...lane.fills.values()].map(({ bar }) => bar),
    ...lane.dynamics.keys(),
    ...lane.palmMutes,
    ...lane.letRings,
    ...lane.strumming.bars.keys(),
  ];
  const stands = standing(sections);
  return [...lane.grips.keys(), ...onBars].filter((id) => !stands.has(id)).length;
}
