/** Changes to a lane, and what they are made of, drawn from what a board holds at the moment. */
import type { Board, FormEntryId, LaneId } from "@halflap/board/board";
import { type BarId, fillId, strumId } from "@halflap/board/ids";
import { dynamics, type Fill, type FillNote, fillWays, type Strum } from "@halflap/board/playing";
import type { LaneEdit, StrumPlace } from "@halflap/board/proposal";
import { parseStrumText, stepLengths } from "@halflap/board/strum-text";
import { stringNumbers } from "@halflap/theory/tuning";
import { fret, ticks } from "@halflap/theory/units";
import type { Chance } from "./seeded.ts";

type Moment = {
  readonly board: Board;
  readonly lane: LaneId;
  readonly chance: Chance;
  readonly makeId: () => string;
};

const grips = ["x-x-3-2-4-x", "x-x-x-x-8-8", "1-3-1-2-1-1"] as const;
const patterns = ["D.DU.UDU", "D...D...", "..>D.~UdDx", "D.U"] as const;

/** One change of a random kind to the lane, of its own or another's making. */
export function randomLaneEdit(moment: Moment): LaneEdit {
  const { board, lane, chance } = moment;
  const { strums, fills } = board.lanes[lane];
  const bars = barsOf(board);
  const [bar] = bars.length === 0 ? [] : [chance.pick(bars)];
  const known = [...strums.keys()];
  const strum = known.length === 0 ? strumId("none") : chance.pick(known);
  const fill = fills.size === 0 ? fillId("none") : chance.pick([...fills.keys()]);
  const edits: LaneEdit[] = [
    { kind: "strum", strum: randomStrum(moment) },
    { kind: "strum-gone", strum },
    { kind: "strum-at", place: somePlace(moment), strum: chance.happens(0.8) ? strum : undefined },
    { kind: "capo", capo: fret(chance.below(5)) },
    { kind: "fill-gone", fill },
  ];
  const entry = someEntry(moment);
  if (entry !== undefined) edits.push({ kind: "rest-pass", entry, rest: chance.happens(0.6) });
  if (bar === undefined) return chance.pick(edits);
  const slot = chance.pick(bar.slots).id;
  const on = chance.happens(0.6);
  edits.push(
    { kind: "grip", slot, grip: chance.happens(0.8) ? chance.pick(grips) : undefined },
    { kind: "lock", slot, on },
    { kind: "lay-out", bar: bar.id, rest: on },
    { kind: "fill", fill: randomFill(moment, bar.id) },
    { kind: "dynamic", bar: bar.id, dynamic: on ? chance.pick(dynamics) : undefined },
    { kind: "palm-mute", bar: bar.id, on },
    { kind: "let-ring", bar: bar.id, on },
    { kind: "mark", bar: bar.id, text: chance.pick(["", "let ring"]) },
  );
  return chance.pick(edits);
}

function barsOf(board: Board) {
  return board.sections.flatMap((section) => section.bars);
}

function randomStrum({ board, lane, chance, makeId }: Moment): Strum {
  const known = [...board.lanes[lane].strums.keys()];
  const steps = parseStrumText(chance.pick(patterns));
  if (!steps.ok) throw new Error("the patterns can be read");
  return {
    id: known.length > 0 && chance.happens(0.4) ? chance.pick(known) : strumId(makeId()),
    name: `Pattern ${chance.below(9)}`,
    step: chance.pick(stepLengths),
    feel: chance.pick(["board", "straight", "swing"]),
    palmMute: chance.happens(0.3),
    steps: steps.value,
  };
}

function somePlace(moment: Moment): StrumPlace {
  const { board, chance } = moment;
  const bars = barsOf(board);
  const entry = someEntry(moment);
  const places: StrumPlace[] = [{ kind: "lane" }];
  if (board.sections.length > 0) {
    places.push({ kind: "section", section: chance.pick(board.sections).id });
  }
  if (bars.length > 0) places.push({ kind: "bar", bar: chance.pick(bars).id });
  if (entry !== undefined) places.push({ kind: "pass", entry });
  return chance.pick(places);
}

function someEntry({ board, chance }: Moment): FormEntryId | undefined {
  return board.form.length === 0 ? undefined : chance.pick(board.form).id;
}

/** Notes in any order, some outside the fill, some two at once on one string. */
function randomFill({ board, lane, chance, makeId }: Moment, bar: BarId): Fill {
  const known = [...board.lanes[lane].fills.keys()];
  return {
    id: known.length > 0 && chance.happens(0.4) ? chance.pick(known) : fillId(makeId()),
    bar,
    start: ticks(chance.pick([0, 96, 120, 144])),
    length: ticks(chance.pick([24, 48, 96])),
    kind: chance.pick(["fill", "line"]),
    together: chance.happens(0.2),
    notes: Array.from({ length: chance.below(5) }, () => randomNote(chance)),
  };
}

function randomNote(chance: Chance): FillNote {
  const way = chance.pick(fillWays);
  return {
    start: ticks(chance.below(5) * 12),
    length: ticks(12 + chance.below(2) * 12),
    string: chance.pick(stringNumbers),
    fret: fret(chance.below(13)),
    way,
    bend: way === "bend" ? chance.pick([0.5, 1, 2]) : 0,
    letRing: chance.happens(0.2),
  };
}
