/** Two players who change something at once both get their way. */
import type { SharedPlay } from "@halflap/wire/together";
import { createRoot } from "solid-js";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { Wishes } from "../player-messages.ts";
import { barAt, board, plain } from "../test-support/rehearsal.ts";
import type { Bond } from "./bond.ts";
import { makeTurning } from "./turning.ts";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

const loop = { kind: "bars", from: barAt(4), to: barAt(5) } as const;
const first: SharedPlay = {
  ...{ kind: "playing", tick: 0, atMs: 0 },
  ...{ percent: 100, countIn: 0, loop: undefined },
};

/** One browser that is along, told what plays by hand; it takes over what it is told. */
function along() {
  let play = first;
  let wishes: Wishes = plain;
  const asked: (Pick<SharedPlay, "percent" | "loop"> | undefined)[] = [];
  const bond = {
    isMeeting: () => true,
    word: () => ({ revision: 1, play }),
    nowThere: () => 1000,
    timed: () => board,
    wishes: () => wishes,
    ask: (next: SharedPlay | undefined) => {
      asked.push(next && { percent: next.percent, loop: next.loop });
      return true;
    },
  } as unknown as Bond;
  const { turn } = createRoot(() => makeTurning(bond));
  return {
    asked,
    wish(change: Partial<Wishes>) {
      wishes = { ...wishes, ...change };
      turn(change);
    },
    told(change: Partial<SharedPlay>) {
      play = { ...play, ...change };
      wishes = { ...wishes, tempoFactor: play.percent / 100, loop: play.loop };
    },
  };
}

test("my tempo is asked for over the loop that the other one has chosen meanwhile", () => {
  const { asked, wish, told } = along();
  wish({ tempoFactor: 0.8 });
  told({ loop });
  vi.runAllTimers();
  expect(asked).toEqual([{ percent: 80, loop }]);
});

test("my loop is asked for over the other one's tempo, and so is leaving it", () => {
  const { asked, wish, told } = along();
  wish({ loop });
  told({ percent: 70 });
  vi.runAllTimers();
  told({ loop });
  wish({ loop: undefined });
  told({ percent: 90 });
  vi.runAllTimers();
  expect(asked).toEqual([
    { percent: 70, loop },
    { percent: 90, loop: undefined },
  ]);
});

test("what I change before the slider rests is asked for once, and not again with the next", () => {
  const { asked, wish, told } = along();
  wish({ tempoFactor: 0.9 });
  wish({ tempoFactor: 0.8 });
  wish({ loop });
  wish({ countsIn: false });
  vi.runAllTimers();
  told({ percent: 120, loop });
  wish({ loop: undefined });
  vi.runAllTimers();
  expect(asked).toEqual([
    { percent: 80, loop },
    { percent: 120, loop: undefined },
  ]);
});
