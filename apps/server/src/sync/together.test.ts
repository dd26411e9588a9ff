/** W10: one word holds, the server says whose, and it ends when nobody hears it. */
import { memberId } from "@halflap/board/talk";
import type { Me } from "@halflap/wire/api";
import {
  clockQuestionsBurst,
  togetherAsksBurst,
  togetherLastsMs,
  togetherReachMs,
} from "@halflap/wire/limits";
import { decodeRefused, refusedMessage } from "@halflap/wire/messages";
import {
  clockAnswerMessage,
  decodeClockAnswer,
  decodeTogetherTold,
  type SharedPlay,
  type Told,
} from "@halflap/wire/together";
import * as decoding from "lib0/decoding";
import { beforeEach, expect, test } from "vitest";
import { Seat } from "./seat.ts";
import { Together } from "./together.ts";

const ada: Me = { id: memberId("ada"), name: "Ada", role: "leader" };
const cleo: Me = { id: memberId("cleo"), name: "Cleo", role: "listener" };

let now = 0;
let together: Together;

beforeEach(() => {
  now = 5_000;
  together = new Together();
});

function sit(member: Me) {
  const heard: Uint8Array[] = [];
  const line = { send: (frame: Uint8Array) => heard.push(frame), close() {}, buffered: () => 0 };
  const clock = () => now;
  const seat = new Seat({ member: member.id, wantsSaved: true, now: clock, clock, line });
  const refusals = () =>
    heard.flatMap((frame) => {
      const decoder = decoding.createDecoder(frame);
      return decoding.readVarUint(decoder) === refusedMessage ? [decodeRefused(decoder)] : [];
    });
  return { seat, heard, refusals };
}

function read(frame: Uint8Array | undefined): Told | undefined {
  if (frame === undefined) return undefined;
  const decoder = decoding.createDecoder(frame);
  decoding.readVarUint(decoder);
  return decodeTogetherTold(decoder);
}

const play = (atMs: number): SharedPlay => {
  return { kind: "playing", tick: 192, atMs, percent: 80, countIn: 1, loop: undefined };
};

test("W10 the last word holds, under the next revision and the socket's own member", () => {
  const first = sit(ada);
  const second = sit(cleo);
  expect(read(together.frame(now))).toEqual({ kind: "nothing" });
  expect(read(together.ask(first.seat, ada, play(5_600)))).toEqual({
    kind: "word",
    revision: 1,
    by: "ada",
    wish: play(5_600),
  });
  const stopped = { kind: "word", revision: 2, by: "cleo", wish: { kind: "stopped" } };
  expect(read(together.ask(second.seat, cleo, { kind: "stopped" }))).toEqual(stopped);
  expect(read(together.frame(now))).toEqual(stopped);
});

test("W10 the time is answered at once, with the question's own", () => {
  const { seat, heard } = sit(ada);
  together.answer(seat, { sentMs: 12.345, isAlong: false });
  const decoder = decoding.createDecoder(heard[0] ?? new Uint8Array());
  expect(decoding.readVarUint(decoder)).toBe(clockAnswerMessage);
  expect(decodeClockAnswer(decoder)).toEqual({ sentMs: 12.345, serverMs: 5_000 });
});

test("W10 a moment too far from now is refused and changes nothing", () => {
  const { seat, refusals } = sit(ada);
  expect(together.ask(seat, ada, play(now + togetherReachMs + 1))).toBeUndefined();
  now = togetherReachMs * 2;
  expect(together.ask(seat, ada, play(now - togetherReachMs - 1))).toBeUndefined();
  expect(refusals()).toEqual(["malformed", "malformed"]);
  expect(read(together.frame(now))).toEqual({ kind: "nothing" });
});

test("W10 who was removed has no word", () => {
  const { seat, refusals } = sit(ada);
  expect(together.ask(seat, undefined, play(now))).toBeUndefined();
  expect(refusals()).toEqual(["not-yours"]);
});

test("W10 asking too often is refused, and is taken again after a while", () => {
  const { seat, refusals, heard } = sit(ada);
  const words = Array.from({ length: togetherAsksBurst + 2 }, () =>
    together.ask(seat, ada, play(now)),
  );
  expect(words.filter((word) => word !== undefined)).toHaveLength(togetherAsksBurst);
  expect(refusals()).toEqual(["too-fast", "too-fast"]);
  now += 1_000;
  expect(together.ask(seat, ada, play(now))).toBeDefined();
  heard.length = 0;
  for (let i = 0; i < clockQuestionsBurst + 3; i += 1) {
    together.answer(seat, { sentMs: i, isAlong: true });
  }
  expect(refusals()).toEqual(["too-fast", "too-fast", "too-fast"]);
  expect(heard).toHaveLength(clockQuestionsBurst + 3);
});

test("W10 it ends when the last one leaves who heard it, and not before", () => {
  const [starter, other, third] = [sit(ada), sit(cleo), sit(cleo)];
  together.ask(starter.seat, ada, play(now));
  together.answer(other.seat, { sentMs: 0, isAlong: true });
  expect(together.leave(starter.seat)).toBeUndefined();
  expect(together.leave(third.seat)).toBeUndefined();
  expect(read(together.leave(other.seat))).toEqual({ kind: "nothing" });
  expect(read(together.frame(now))).toEqual({ kind: "nothing" });
  // The next word is told from the one that ended.
  expect(read(together.ask(third.seat, cleo, play(now)))).toMatchObject({ revision: 2 });
});

test("W10 it ends when the last one says that it hears it no more", () => {
  const [starter, other] = [sit(ada), sit(cleo)];
  together.ask(starter.seat, ada, play(now));
  expect(together.answer(other.seat, { sentMs: 0, isAlong: true })).toBeUndefined();
  expect(together.answer(starter.seat, { sentMs: 0, isAlong: false })).toBeUndefined();
  expect(together.answer(starter.seat, { sentMs: 0, isAlong: false })).toBeUndefined();
  expect(read(together.answer(other.seat, { sentMs: 0, isAlong: false }))).toEqual({
    kind: "nothing",
  });
});

test("W10 a stop outlasts who said it, and an old word is told to nobody who comes", () => {
  const { seat } = sit(ada);
  together.ask(seat, ada, { kind: "stopped" });
  expect(together.leave(seat)).toBeUndefined();
  expect(read(together.frame(now))).toMatchObject({ revision: 1 });
  expect(read(together.frame(now + togetherLastsMs + 1))).toEqual({ kind: "nothing" });
});
