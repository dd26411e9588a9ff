/** Two pages and a server whose clocks differ, on lines of several kinds, seeded. */
import { describe, expect, test } from "vitest";
import {
  type Agreement,
  agree,
  askerTime,
  type Ping,
  pingsPerRound,
  type Reckoning,
  reckon,
  roundsMax,
  serverTime,
} from "./agreement.ts";

/** Numbers from 0 to 1, the same row for a seed (linear congruence modulo 2^32). */
function dice(seed: number): () => number {
  let state = seed;
  const roll = () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
  for (let i = 0; i < 8; i += 1) roll();
  return roll;
}

/** How long a frame takes each way, in ms. */
type Way = (roll: () => number) => { readonly there: number; readonly back: number };

type Page = { readonly offsetMs: number; readonly drift: number };

/** The server's clock as it truly is, at a moment of the page's. */
const truth = (page: Page, pageMs: number) => pageMs * (1 + page.drift) + page.offsetMs;

function round(page: Page, way: Way, from: number, roll: () => number): readonly Ping[] {
  return Array.from({ length: pingsPerRound }, (_, index) => {
    const sentMs = from + index * 50;
    const { there, back } = way(roll);
    const serverMs = truth(page, sentMs + there);
    return { sentMs, serverMs, cameMs: sentMs + there + back };
  });
}

function settled(page: Page, way: Way, seed: number, everyMs = 20_000): Agreement {
  const roll = dice(seed);
  const rounds = Array.from({ length: roundsMax }, (_, index) =>
    reckon(round(page, way, 1_000 + index * everyMs, roll)),
  ).filter((each) => each !== undefined);
  const agreement = agree(rounds);
  if (agreement === undefined) throw new Error("no agreement");
  return agreement;
}

const even: Way = () => ({ there: 0.1, back: 0.1 });
const jittery: Way = (roll) => ({ there: 4 + 20 * roll(), back: 4 + 20 * roll() });
/** Mostly quick; a tenth waits for up to a third of a second, either way. */
const heavy: Way = (roll) => {
  const wait = () => 3 + 4 * roll() + (roll() < 0.1 ? 300 * roll() : 0);
  return { there: wait(), back: wait() };
};
const lopsided: Way = (roll) => ({ there: 24 + roll(), back: 4 + roll() });

const pages: readonly Page[] = [
  { offsetMs: 123_456.7, drift: 0 },
  { offsetMs: -9_876.5, drift: 80e-6 },
  { offsetMs: 31.4, drift: -50e-6 },
];

/** How wrong a page is about the server's time, shortly after its last round. */
const wrong = (page: Page, agreement: Agreement, afterMs = 5_000) => {
  const now = agreement.atMs + afterMs;
  return Math.abs(serverTime(agreement, now) - truth(page, now));
};

describe.each([
  ["an even line", even, 0.1],
  ["10 ms of jitter each way", jittery, 2],
  ["a heavy tail", heavy, 1.9],
] as const)("%s", (_what, way, within) => {
  test.each(pages)("a page with offset $offsetMs and drift $drift is right within ms", (page) => {
    for (let seed = 1; seed <= 20; seed += 1) {
      const agreement = settled(page, way, seed);
      expect(wrong(page, agreement)).toBeLessThan(within);
      expect(wrong(page, agreement)).toBeLessThan(agreement.withinMs + 0.5);
    }
  });

  test("two pages agree about one moment of the server", () => {
    for (let seed = 1; seed <= 20; seed += 1) {
      const heard = pages.map((page, index) => {
        const agreement = settled(page, way, 100 * seed + index);
        const now = agreement.atMs + 5_000;
        return serverTime(agreement, now) - truth(page, now);
      });
      expect(Math.max(...heard) - Math.min(...heard)).toBeLessThan(2 * within);
    }
  });
});

test("what is slower one way only can't be seen, but lies within the bound that is told", () => {
  const [page] = pages;
  if (page === undefined) throw new Error("no page");
  const agreement = settled(page, lopsided, 3);
  expect(wrong(page, agreement)).toBeGreaterThan(9);
  expect(wrong(page, agreement)).toBeLessThanOrEqual(agreement.withinMs);
});

test("the drift is found, and the offset goes on with it until the next round", () => {
  const page: Page = { offsetMs: 5, drift: 80e-6 };
  const agreement = settled(page, even, 1);
  expect(agreement.drift).toBeCloseTo(80e-6, 6);
  expect(wrong(page, agreement, 60_000)).toBeLessThan(0.2);
  // Without it, a minute would make almost five milliseconds.
  expect(wrong(page, { ...agreement, drift: 0 }, 60_000)).toBeGreaterThan(4);
});

test("one bad round does not bend the drift", () => {
  const good: Reckoning[] = Array.from({ length: 7 }, (_, index) => {
    return { atMs: index * 20_000, offsetMs: 10, withinMs: 1 };
  });
  const rounds = good.map((each) =>
    each.atMs === 60_000 ? { ...each, offsetMs: 40, withinMs: 35 } : each,
  );
  expect(agree(rounds)?.drift).toBe(0);
});

test("one answer is enough to begin with, and none is none", () => {
  expect(reckon([])).toBeUndefined();
  expect(agree([])).toBeUndefined();
  const only = reckon([{ sentMs: 10, serverMs: 1_000, cameMs: 14 }]);
  expect(only).toEqual({ atMs: 12, offsetMs: 988, withinMs: 2 });
});

test("there and back again is the same moment", () => {
  const agreement = settled({ offsetMs: 1_000, drift: 80e-6 }, jittery, 5);
  for (const moment of [0, 1_234.5, 9e6]) {
    expect(askerTime(agreement, serverTime(agreement, moment))).toBeCloseTo(moment, 6);
  }
});
