/** What crosses between nodes, over each way by which it goes: heard by all others, in one time. */
import { makeBoardId } from "@halflap/server/secret";
import { inProcessRound } from "@halflap/server/wakes-in-process";
import { redisWakes } from "@halflap/server/wakes-redis";
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { startRedis, type TestRedis } from "../support/redis.ts";

type Line = ReturnType<typeof redisWakes>;

const key = { board: makeBoardId(), document: "board" } as const;
const frameOf = (number: number) => new Uint8Array([number]);
const joinRedis = () => redisWakes({ address: redis.address, onLost: () => undefined });

let redis: TestRedis;

beforeAll(async () => {
  redis = await startRedis();
});

afterAll(() => redis.kill());

/** Which frames come to somebody, by their numbers. */
function hearing(line: Line): number[] {
  const heard: number[] = [];
  line.hearCrossed(({ frame }) => heard.push(...frame));
  return heard;
}

/** Passes it until it is heard: a frame passed before the line stands is lost. */
async function passUntilHeard(line: Line, heard: readonly number[], number: number) {
  await vi.waitFor(
    () => {
      line.cross({ key, frame: frameOf(number) });
      expect(heard).toContain(number);
    },
    { timeout: 20_000, interval: 10 },
  );
}

const isShared = ({ time }: Line) => typeof time().nodes === "object";
const untilShared = (line: Line) =>
  vi.waitFor(() => expect(isShared(line)).toBe(true), { timeout: 20_000, interval: 10 });

/** Whether two nodes that read their clocks now are as near as they say. */
function meanOneTime(one: Pick<Line, "time">, other: Pick<Line, "time">): boolean {
  const [before, there, after] = [one.time(), other.time(), one.time()];
  const doubts = [before, there].map(({ nodes }) =>
    typeof nodes === "object" ? nodes.withinMs : Number.NaN,
  );
  const doubt = doubts.reduce((sum, each) => sum + each, 0);
  return there.ms >= before.ms - doubt && there.ms <= after.ms + doubt;
}

describe.each([
  ["in one process", () => inProcessRound()],
  ["over Redis", () => joinRedis],
])("%s", (_name, round) => {
  test("what one passes all others hear, in order, until they close", async () => {
    const join: () => Line = round();
    const lines = [join(), join(), join()] as const;
    const [own, second, third] = [hearing(lines[0]), hearing(lines[1]), hearing(lines[2])];
    await passUntilHeard(lines[0], second, 1);
    await passUntilHeard(lines[0], third, 2);
    for (let number = 3; number <= 50; number += 1) lines[0].cross({ key, frame: frameOf(number) });
    await vi.waitFor(() => expect([second.at(-1), third.at(-1)]).toEqual([50, 50]));
    const sent = Array.from({ length: 48 }, (_, i) => i + 3);
    for (const heard of [second, third]) expect(heard.slice(heard.indexOf(3))).toEqual(sent);
    expect(own).toEqual([]);
    await lines[1].close();
    lines[0].cross({ key, frame: frameOf(51) });
    await vi.waitFor(() => expect(third.at(-1)).toBe(51));
    expect(second.at(-1)).toBe(50);
    await Promise.all([lines[0].close(), lines[2].close()]);
    lines[0].cross({ key, frame: frameOf(52) });
  });

  test("W15 all mean one time, as nearly as they say", async () => {
    const join: () => Line = round();
    const lines = [join(), join(), join()] as const;
    await Promise.all(lines.map(untilShared));
    for (const one of lines) for (const other of lines) expect(meanOneTime(one, other)).toBe(true);
    const late = () => ({ ...lines[1].time(), ms: lines[1].time().ms - 50 });
    expect(meanOneTime(lines[0], { time: late })).toBe(false);
    await Promise.all(lines.map((line) => line.close()));
  });
});

test("W15 while Redis is away time goes on and says so; back, it is shared as it was", async () => {
  const [one, other] = [joinRedis(), joinRedis()];
  await Promise.all([one, other].map(untilShared));
  const before = one.time();
  await redis.kill();
  const isCutOff = () => expect(one.time().nodes).toBe("cut-off");
  await vi.waitFor(isCutOff, { timeout: 20_000, interval: 10 });
  expect(one.time().ms).toBeGreaterThan(before.ms);
  await redis.start();
  await Promise.all([one, other].map(untilShared));
  expect(meanOneTime(one, other)).toBe(true);
  expect(one.time().era).toBe(before.era);
  await Promise.all([one.close(), other.close()]);
});
