/** Wake-ups, over each way by which they go: what is said all hear, and losing it is no harm. */
import { rowId } from "@halflap/server/log-port";
import { makeBoardId } from "@halflap/server/secret";
import { decodeWord, encodeWord, type Heard, type Wakes, type Word } from "@halflap/server/wakes";
import { inProcessRound } from "@halflap/server/wakes-in-process";
import { redisWakes } from "@halflap/server/wakes-redis";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startRedis, type TestRedis } from "../support/redis.ts";

const key = { board: makeBoardId(), document: "board" } as const;
const word = (row: number): Word => ({ key, row: rowId(row) });

let redis: TestRedis;

beforeAll(async () => {
  redis = await startRedis();
});

afterAll(() => redis.kill());

/** What is heard, and a promise of the first that is wanted. */
function listening(wakes: Wakes) {
  const heard: Heard[] = [];
  const looks = new Set<() => void>();
  wakes.hear((one) => {
    heard.push(one);
    for (const look of [...looks]) look();
  });
  const until = (isWanted: (all: readonly Heard[]) => boolean) =>
    new Promise<void>((resolve) => {
      const look = () => {
        if (!isWanted(heard)) return;
        looks.delete(look);
        resolve();
      };
      looks.add(look);
      look();
    });
  const untilRow = (row: number) =>
    until((all) => all.some((one) => one !== "perhaps-more" && one.row === row));
  return { heard, until, untilRow };
}

const overRedis = (lost: unknown[] = []) =>
  redisWakes({ address: redis.address, onLost: (fault) => lost.push(fault) });

/** Says it again and again until it is heard: a word said before the line stands is lost. */
async function sayUntilHeard(speaker: Wakes, { until }: ReturnType<typeof listening>, row: number) {
  let isHeard = false;
  const done = until((all) => all.some((one) => one !== "perhaps-more" && one.row === row));
  void done.then(() => {
    isHeard = true;
  });
  while (!isHeard) {
    speaker.say(word(row));
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
}

describe.each([
  ["in one process", () => inProcessRound()],
  ["over Redis", () => overRedis],
])("%s", (_name, round) => {
  test("what one says all hear, in order, until they close", async () => {
    const join: () => Wakes = round();
    const [one, two, three] = [join(), join(), join()];
    const [second, third] = [listening(two), listening(three)];
    await sayUntilHeard(one, second, 1);
    await sayUntilHeard(one, third, 2);
    for (let row = 3; row <= 50; row += 1) one.say(word(row));
    await Promise.all([second.untilRow(50), third.untilRow(50)]);
    const rows = second.heard.flatMap((each) => (each === "perhaps-more" ? [] : [each.row]));
    expect(rows.slice(rows.indexOf(rowId(3)))).toEqual(Array.from({ length: 48 }, (_, i) => i + 3));
    expect(second.heard.at(-1)).toEqual(word(50));
    await two.close();
    one.say(word(51));
    await third.untilRow(51);
    expect(second.heard.at(-1)).toEqual(word(50));
    await Promise.all([one.close(), three.close()]);
  });

  test("saying to nobody, and after the end, is allowed", async () => {
    const join: () => Wakes = round();
    const alone = join();
    alone.say(word(1));
    await alone.close();
    alone.say(word(2));
  });
});

test("while Redis is away nothing is said; back, all hear that words may be missing", async () => {
  const lost: unknown[] = [];
  const [speaker, hearer] = [overRedis(lost), overRedis()];
  const listener = listening(hearer);
  await sayUntilHeard(speaker, listener, 1);
  await redis.kill();
  for (let row = 2; row < 2_000; row += 1) speaker.say(word(row));
  const before = listener.heard.filter((one) => one === "perhaps-more").length;
  await redis.start();
  await listener.until((all) => all.filter((one) => one === "perhaps-more").length > before);
  await sayUntilHeard(speaker, listener, 3_000);
  expect(lost).toHaveLength(1);
  await Promise.all([speaker.close(), hearer.close()]);
});

test("a Redis that stands still keeps nobody, and is heard after it", async () => {
  const [speaker, hearer] = [overRedis(), overRedis()];
  const listener = listening(hearer);
  await sayUntilHeard(speaker, listener, 1);
  redis.freeze();
  for (let row = 2; row < 5_000; row += 1) speaker.say(word(row));
  redis.thaw();
  await sayUntilHeard(speaker, listener, 9_000);
  await Promise.all([speaker.close(), hearer.close()]);
});

test("a Redis that is not there is waited for", async () => {
  await redis.kill();
  const [speaker, hearer] = [overRedis(), overRedis()];
  const listener = listening(hearer);
  speaker.say(word(1));
  await redis.start();
  await sayUntilHeard(speaker, listener, 2);
  await Promise.all([speaker.close(), hearer.close()]);
});

test("a text that is no word is none", () => {
  expect(decodeWord(encodeWord(word(7)))).toEqual(word(7));
  const { board } = key;
  const bad = [
    "",
    "7",
    "{}",
    "[",
    JSON.stringify([board, "board"]),
    JSON.stringify([board, "attic", 1]),
    JSON.stringify(["short", "board", 1]),
    JSON.stringify([board, "board", 0]),
    JSON.stringify([board, "board", 1.5]),
    JSON.stringify([board, "board", "1"]),
    JSON.stringify([board, "board", 1, 2]),
  ];
  expect(bad.map(decodeWord)).toEqual(bad.map(() => undefined));
});
