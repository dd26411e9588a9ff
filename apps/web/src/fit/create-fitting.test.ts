/** The fit of the panel: what is looked at follows the board, as what would be taken does. */
import type { Board } from "@halflap/board/board";
import { decodeGrip } from "@halflap/theory/grip";
import { createRoot } from "solid-js";
import { afterEach, expect, test, vi } from "vitest";
import type { Desk } from "../board/desk.ts";
import { createPreview } from "../board/preview.ts";
import { makeLiveBoard } from "../session/follow.ts";
import { createFitting } from "./create-fitting.ts";
import type { FitQuestion } from "./fit-messages.ts";
import { anAnswer, aPart, demoBoard } from "./test-support/answers.ts";

afterEach(() => void vi.unstubAllGlobals());

const demo = demoBoard();
const [one, two] = demo.lanes.lower.grips.keys();
const played = decodeGrip("x-3-2-4-x-x");
if (!one || !two || !played) throw new Error("the demo has grips");
const part = aPart(
  "lower",
  new Map([
    [one, "x-3-2-4-x-x"],
    [two, "x-x-5-5-6-x"],
  ]),
);

/** A worker that has one answer to everything. */
class ReadyWorker extends EventTarget {
  postMessage(question: FitQuestion) {
    if (!("question" in question)) return;
    const result = { kind: "answers", answers: [anAnswer({ parts: [part] })], skipped: [] };
    const data = { kind: "result", question: question.question, result };
    this.dispatchEvent(new MessageEvent("message", { data }));
  }
  terminate() {}
}

test("what is played by now as the answer has it is not shown as a change any more", async () => {
  vi.stubGlobal("Worker", ReadyWorker);
  const live = makeLiveBoard(demo);
  const preview = createPreview();
  const session = { board: live.board, feed: () => () => {}, ownLane: () => "lower" };
  const desk = { session, ...preview, slotPlace: () => undefined, reveal: () => {} };
  await createRoot(async (dispose) => {
    const fit = createFitting(desk as unknown as Desk, () => true);
    await fit.run();
    fit.pick("one");
    const seen = () => [...(preview.preview()?.lower?.grips.keys() ?? [])];
    expect(seen()).toEqual([one, two]);
    expect(fit.isStale()).toBe(false);
    const { lower, upper } = demo.lanes;
    const grips = new Map([...lower.grips, [one, played]]);
    const next: Board = { ...demo, lanes: { upper, lower: { ...lower, grips } } };
    live.follow(next);
    expect(seen()).toEqual([two]);
    expect(fit.isStale()).toBe(true);
    fit.pick(undefined);
    live.follow(demo);
    expect(preview.preview()).toBeUndefined();
    dispose();
  });
});

test("a section that is removed counts no more among those asked for, until it is back", () => {
  const live = makeLiveBoard(demo);
  const session = { board: live.board, feed: () => () => {}, ownLane: () => "lower" };
  const [first, ...others] = demo.sections;
  if (first === undefined) throw new Error("the demo has sections");
  createRoot((dispose) => {
    const desk = { session, ...createPreview() };
    const fit = createFitting(desk as unknown as Desk, () => true);
    fit.change({ sections: new Set([first.id]) });
    expect(fit.ask().sections?.size).toBe(1);
    live.follow({ ...demo, sections: others });
    expect(fit.ask().sections?.size).toBe(0);
    live.follow(demo);
    expect(fit.request()?.bars).toHaveLength(first.bars.length);
    dispose();
  });
});
