/**
 * One pitch scale for the board, with room for all that is drawn on it.
 *
 * @vitest-environment jsdom
 */
import { gripPitches, parseGrip } from "@halflap/theory/grip";
import { createRoot } from "solid-js";
import { expect, test, vi } from "vitest";
import { demoBoard } from "../fit/test-support/answers.ts";
import { createBoardLayout } from "./board-layout.ts";
import type { Desk } from "./desk.ts";
import { createPreview } from "./preview.ts";

test("what is looked at is within the scale, and no longer once it is put away", () => {
  vi.stubGlobal(
    "ResizeObserver",
    class {
      disconnect() {}
    },
  );
  const board = demoBoard();
  const { setup } = board.lanes.upper;
  const slot = board.sections[0]?.bars[0]?.slots[0]?.id;
  const high = parseGrip("x-x-x-x-17-17", setup);
  if (slot === undefined || !high.ok) throw new Error("a slot and a grip");
  createRoot((dispose) => {
    const preview = createPreview();
    const { scale } = createBoardLayout({ session: { board }, ...preview } as unknown as Desk);
    const before = scale();
    preview.setPreview({ upper: { grips: new Map([[slot, high.value]]), setup } });
    const top = Math.max(...gripPitches(high.value, setup));
    expect(before.high).toBeLessThan(top);
    expect(scale().high).toBeGreaterThan(top);
    preview.setPreview(undefined);
    expect(scale()).toEqual(before);
    dispose();
  });
  vi.unstubAllGlobals();
});
