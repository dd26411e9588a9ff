/** W15: what a node tells of playing together is read back as it was, and nothing else is. */
import type { Told } from "@halflap/wire/together";
import { expect, test } from "vitest";
import { decodeFrame } from "../sync/frames.ts";
import { decodeRun, encodeRun, type Run } from "./crossed-run.ts";

const word: Told = {
  kind: "word",
  revision: 7,
  by: "ada",
  wish: { kind: "playing", tick: 192, atMs: 1e12, percent: 80, countIn: 1, loop: undefined },
};
const run: Run = {
  node: 9,
  sentMs: 1e12 + 5,
  revision: 7,
  told: word,
  ageMs: 60_000,
  isAlong: true,
};

test("W15 a word, a stop and nothing come through", () => {
  const stopped: Told = { ...word, wish: { kind: "stopped" } };
  for (const told of [word, stopped, { kind: "nothing" } as const]) {
    const sent = { ...run, told, isAlong: told === word };
    expect(decodeRun(encodeRun(sent))).toEqual(sent);
  }
});

test("W15 what is cut short, goes on after its end or is another frame is none", () => {
  const bytes = encodeRun(run);
  for (let length = 0; length < bytes.length; length += 1) {
    expect(decodeRun(bytes.slice(0, length))).toBeUndefined();
  }
  expect(decodeRun(new Uint8Array([...bytes, 0]))).toBeUndefined();
  expect(decodeRun(new Uint8Array([105, 0]))).toBeUndefined();
});

test("W15 no page may say it", () => {
  expect(decodeFrame(encodeRun(run))).toEqual({ kind: "unreadable" });
});
