/** Who gets which change when an answer is taken, and what of it still holds by then. */
import type { Board, Lane, SlotId } from "@halflap/board/board";
import { proposalEditsMax, proposalsMax } from "@halflap/board/limits";
import { decodeGrip } from "@halflap/theory/grip";
import { fret } from "@halflap/theory/units";
import { expect, test } from "vitest";
import { changeCount, previewOf } from "./answer-preview.ts";
import { takingOf, whyNotOffered } from "./taking.ts";
import { anAnswer, aPart, demoBoard } from "./test-support/answers.ts";

const board = demoBoard();
const [slot, second] = board.lanes.upper.grips.keys();
const [bar] = board.sections.flatMap(({ bars }) => bars);
if (!slot || !second || !bar) throw new Error("the demo has bars and grips");
const upper = aPart("upper", new Map([[slot, "x-x-3-2-4-x"]]));
const lower = aPart("lower", new Map([[slot, "x-3-2-4-x-x"]]));
const both = { parts: [upper, lower] };
const mark = { kind: "mark", bar: bar.id, text: "softly" } as const;
const along = [{ lane: "upper", edits: [mark] }] as const;

const withLower = (change: Partial<Lane>): Board => ({
  ...board,
  lanes: { ...board.lanes, lower: { ...board.lanes.lower, ...change } },
});
/** What becomes of the lower lane, and how many grips are seen to change, on a board. */
function outcome(part: ReturnType<typeof aPart>, now: Board) {
  const answer = anAnswer({ parts: [part] });
  const { own } = takingOf(answer, [], "lower", now);
  return { edits: own?.edits ?? [], seen: changeCount(previewOf(answer, now)) };
}
const grip = (at: SlotId, text: string) => ({ kind: "grip", slot: at, grip: text });

test("my lane's edits are mine, the other's are offered", () => {
  const taking = takingOf(both, [], "lower", board);
  expect(taking.own).toEqual({ lane: "lower", edits: lower.edits });
  expect(taking.offers).toEqual([{ lane: "upper", edits: upper.edits }]);
});

test("without a lane of mine all is offered, and what changes nothing is left out", () => {
  expect(takingOf(both, [], undefined, board).offers).toHaveLength(2);
  const nothing = aPart("upper", new Map());
  expect(takingOf({ parts: [nothing] }, [], undefined, board).offers).toEqual([]);
});

test("what goes along joins the part of its lane, in one step", () => {
  const taking = takingOf({ parts: [lower] }, along, "upper", board);
  expect(taking.own?.edits).toHaveLength(1);
  expect(takingOf(both, along, "upper", board).own?.edits).toHaveLength(2);
});

test("what was locked since stays as it is, seen and taken", () => {
  const part = aPart(
    "lower",
    new Map([
      [slot, "x-3-2-4-x-x"],
      [second, "x-x-5-5-6-x"],
    ]),
  );
  const { wishes } = board.lanes.lower;
  const now = withLower({ wishes: { ...wishes, locked: new Set([slot]) } });
  expect(outcome(part, board)).toMatchObject({ edits: { length: 2 }, seen: 2 });
  expect(outcome(part, now)).toEqual({ edits: [grip(second, "x-x-5-5-6-x")], seen: 1 });
  const more = [{ lane: "lower", edits: [{ kind: "grip", slot, grip: undefined }, mark] }] as const;
  expect(takingOf({ parts: [] }, more, "lower", now).own?.edits).toEqual([mark]);
});

test("what is gone since is left out, seen and taken", () => {
  const part = aPart(
    "lower",
    new Map([
      [slot, "x-3-2-4-x-x"],
      [second, "x-x-5-5-6-x"],
    ]),
  );
  const without = board.sections.map((section) => ({
    ...section,
    bars: section.bars.filter(({ slots }) => slots.every(({ id }) => id !== slot)),
  }));
  const now = { ...board, sections: without };
  expect(outcome(part, now)).toEqual({ edits: [grip(second, "x-x-5-5-6-x")], seen: 1 });
  expect(takingOf({ parts: [] }, along, "upper", { ...board, sections: [] }).own).toBeUndefined();
});

test("what was changed since becomes what the answer holds, and what is so already stays", () => {
  const held = new Map(board.lanes.lower.grips);
  const [first, other] = [decodeGrip("x-3-2-4-x-x"), decodeGrip("x-x-7-7-6-x")];
  if (!first || !other) throw new Error("these are grips");
  held.set(slot, first).set(second, other);
  // When it was found the second slot held this grip already, so it was no edit then.
  const found = aPart(
    "lower",
    new Map([
      [slot, "x-3-2-4-x-x"],
      [second, "x-x-5-5-6-x"],
    ]),
  );
  const part = { ...found, edits: found.edits.slice(0, 1) };
  const now = withLower({ grips: held });
  expect(outcome(part, now)).toEqual({ edits: [grip(second, "x-x-5-5-6-x")], seen: 1 });
});

test("a capo comes with the part, and what is locked is counted anew to sound as before", () => {
  const held = decodeGrip("x-x-5-5-6-x");
  if (!held) throw new Error("this is a grip");
  const { wishes, setup } = board.lanes.lower;
  const now = withLower({
    setup: { ...setup, capo: fret(0), fretsFrom: "capo" },
    grips: new Map([[second, held]]),
    wishes: { ...wishes, locked: new Set([second]) },
    fills: new Map(),
  });
  const part = { ...aPart("lower", new Map([[slot, "x-3-2-4-x-x"]])), capo: 2 };
  expect(outcome(part, now).edits).toEqual([
    { kind: "capo", capo: 2 },
    grip(second, "x-x-3-3-4-x"),
    grip(slot, "x-3-2-4-x-x"),
  ]);
  const moved = withLower({ ...now.lanes.lower, setup: { ...setup, capo: fret(2) } });
  expect(outcome(part, moved).edits).toEqual([grip(slot, "x-3-2-4-x-x")]);
});

test("too much for an offer, or one too many, is said; my own part has no limit", () => {
  const edits = Array.from({ length: proposalEditsMax }, () => mark);
  const long = takingOf({ parts: [upper] }, [{ lane: "upper", edits }], "upper", board);
  expect(whyNotOffered(long, 0)).toBeUndefined();
  const offered = takingOf({ parts: [upper] }, [{ lane: "upper", edits }], "lower", board);
  expect(whyNotOffered(offered, 0)).toContain("1024");
  const short = takingOf({ parts: [upper] }, [], "lower", board);
  expect(whyNotOffered(short, proposalsMax)).toContain("64");
  expect(whyNotOffered(short, 0)).toBeUndefined();
});
