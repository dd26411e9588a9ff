/** A clock asked over a line that takes its time: known within a bound, kept on, and begun anew. */
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { SharedClock, steppedMs } from "./shared-clock.ts";

/** How the far clock lies to this one, and the line to it; all in ms. */
type Far = {
  offset: number;
  drift: number;
  there: number;
  back: number;
  isAway: boolean;
  hangs: boolean;
};

let far: Far;
let clock: SharedClock;

const nowMs = () => performance.now();
const farNow = () => nowMs() + far.offset + far.drift * nowMs();
const passed = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms));
const wrong = () => Math.abs(clock.time().ms - farNow());

async function ask(): Promise<number> {
  if (far.isAway) throw new Error("away");
  if (far.hangs) return new Promise(() => undefined);
  await passed(far.there);
  const ms = farNow();
  await passed(far.back);
  return ms;
}

beforeEach(() => {
  vi.useFakeTimers();
  far = { offset: 1e12, drift: 40e-6, there: 1, back: 1, isAway: false, hangs: false };
  clock = new SharedClock({ ask, now: nowMs });
});

afterEach(() => {
  clock.close();
  vi.useRealTimers();
});

test("W15 before the first answer it is its own; then it is known within a bound", async () => {
  expect(clock.time()).toEqual({ ms: nowMs(), era: 0, nodes: "cut-off" });
  await vi.advanceTimersByTimeAsync(5);
  expect(clock.time()).toMatchObject({ era: 1, nodes: { withinMs: 1 } });
  expect(wrong()).toBeLessThan(1.01);
  for (let minutes = 0; minutes < 5; minutes += 1) {
    await vi.advanceTimersByTimeAsync(60_000);
    expect(wrong()).toBeLessThan(0.6);
  }
  expect(clock.time()).toMatchObject({ era: 1 });
});

test("W15 a way there that is slower than the way back stays within the bound", async () => {
  far = { ...far, there: 9, back: 1 };
  await vi.advanceTimersByTimeAsync(60_000);
  const { nodes } = clock.time();
  expect(nodes).toMatchObject({ withinMs: expect.closeTo(5, 0) });
  expect(wrong()).toBeGreaterThan(3.5);
  expect(wrong()).toBeLessThan(5.5);
});

test("W15 out of reach it goes on as it went and says so, and is taken up again", async () => {
  await vi.advanceTimersByTimeAsync(90_000);
  far.isAway = true;
  await vi.advanceTimersByTimeAsync(10 * 60_000);
  expect(clock.time()).toMatchObject({ era: 1, nodes: "cut-off" });
  expect(wrong()).toBeLessThan(steppedMs);
  far.isAway = false;
  await vi.advanceTimersByTimeAsync(60_000);
  expect(clock.time().era).toBe(1);
  expect(clock.time().nodes).not.toBe("cut-off");
  expect(wrong()).toBeLessThan(2);
});

test("W15 where the far clock hangs it is cut off too, and taken up once it answers", async () => {
  await vi.advanceTimersByTimeAsync(60_000);
  far.hangs = true;
  await vi.advanceTimersByTimeAsync(10_000);
  expect(clock.time().nodes).toBe("cut-off");
  far.hangs = false;
  await vi.advanceTimersByTimeAsync(10_000);
  expect(clock.time()).toMatchObject({ era: 1, nodes: { withinMs: expect.any(Number) } });
});

test("W15 while a small step is followed the bound says how far off it is", async () => {
  await vi.advanceTimersByTimeAsync(60_000);
  far.offset += steppedMs - 10;
  await vi.advanceTimersByTimeAsync(8_000); // one round, and perhaps two, have seen it
  for (let rounds = 0; rounds < 10; rounds += 1) {
    const { nodes } = clock.time();
    expect(nodes === "cut-off" || nodes === undefined ? 0 : nodes.withinMs).toBeGreaterThan(
      wrong(),
    );
    await vi.advanceTimersByTimeAsync(7_000);
  }
});

test.each([
  ["an hour ahead", 3_600_000, 2],
  ["back a little", -(steppedMs + 10), 2],
  ["ahead by less than that", steppedMs - 10, 1],
])("W15 a clock that was set %s", async (_name, stepMs, era) => {
  await vi.advanceTimersByTimeAsync(60_000);
  far.offset += stepMs;
  await vi.advanceTimersByTimeAsync(60_000);
  expect(clock.time().era).toBe(era);
  await vi.advanceTimersByTimeAsync(60_000);
  expect(wrong()).toBeLessThan(2);
});

test("W15 it asks no more once it is closed", async () => {
  await vi.advanceTimersByTimeAsync(1_000);
  clock.close();
  await vi.advanceTimersByTimeAsync(1_000);
  expect(vi.getTimerCount()).toBe(0);
});
