/** What the panel's choices come to as a request. */
import { sectionId } from "@halflap/board/ids";
import { usualWishes } from "@halflap/board/wishes";
import { expect, test } from "vitest";
import { everydayAsk, requestOf, sameAsk, standingAsk, whyNothing } from "./fit-ask.ts";
import { demoBoard } from "./test-support/answers.ts";

const board = demoBoard();
const [first, second] = board.sections;
if (first === undefined || second === undefined) throw new Error("the demo has sections");

test("the everyday case is my part around the other's, for the whole tune", () => {
  expect(requestOf(everydayAsk("lower"), board)).toEqual({
    lanes: ["lower"],
    leaning: "plain",
    answers: 3,
    bars: undefined,
  });
  expect(requestOf(everydayAsk(undefined), board)?.lanes).toEqual(["upper", "lower"]);
});

test("picked sections are their bars in chart order, whatever the order of picking", () => {
  const sections = new Set([second.id, first.id]);
  const request = requestOf({ ...everydayAsk("upper"), sections }, board);
  expect(request?.bars).toEqual([...first.bars, ...second.bars].map(({ id }) => id));
});

test("no section, and a part that stays as it is, leave nothing to fit", () => {
  const ask = everydayAsk("upper");
  expect(requestOf({ ...ask, sections: new Set() }, board)).toBeUndefined();
  const { upper, lower } = board.lanes;
  const still = { ...upper, wishes: { ...usualWishes, leaveAsIs: true } };
  const lanes = { upper: still, lower };
  expect(requestOf(ask, { ...board, lanes })).toBeUndefined();
  expect(requestOf({ ...ask, whose: "both" }, { ...board, lanes })?.lanes).toEqual(["lower"]);
});

test("a section that was removed is asked for no more", () => {
  const ask = { ...everydayAsk("upper"), sections: new Set([first.id, sectionId("gone")]) };
  const stands = standingAsk(ask, board);
  expect([...(stands.sections ?? [])]).toEqual([first.id]);
  expect(sameAsk(stands, standingAsk(ask, board))).toBe(true);
  expect(sameAsk(stands, ask)).toBe(false);
  expect(standingAsk(stands, board)).toBe(stands);
  const gone = standingAsk({ ...ask, sections: new Set([sectionId("gone")]) }, board);
  expect(whyNothing(gone, board)).toBe("no section");
});

test("sections without bars are told from a part that stays as it is", () => {
  const ask = { ...everydayAsk("upper"), sections: new Set([first.id]) };
  const bare = { ...board, sections: [{ ...first, bars: [] }, second] };
  expect(requestOf(ask, bare)).toBeUndefined();
  expect(whyNothing(ask, bare)).toBe("no bars");
  expect(whyNothing({ ...ask, sections: new Set([first.id, second.id]) }, bare)).toBeUndefined();
  const { upper, lower } = board.lanes;
  const still = { ...upper, wishes: { ...usualWishes, leaveAsIs: true } };
  expect(whyNothing(ask, { ...board, lanes: { upper: still, lower } })).toBe("nothing free");
});
