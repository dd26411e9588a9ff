/** W10: one word holds, the server says whose, and it ends when nobody hears it. */
import { memberId } from "@halflap/board/talk";
import type { Me } from "@halflap/wire/api";
import {
  clockQuestionsBurst,
  togetherAsksBurst,
  togetherLastsMs,
  togetherReachMs,
} from "@halflap/wire/limits";
import { closeCode, decodeRefused, refusedMessage } from "@halflap/wire/messages";
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
let era = 0;
let together: Together;
/** Everything that was told to all. */
let told: (Told | undefined)[];

beforeEach(() => {
  [now, era, told] = [5_000, 0, []];
  together = new Together({
    time: () => ({ ms: now, era, nodes: undefined }),
    tell: (frame) => void told.push(read(frame)),
    cross: () => undefined,
  });
});

function sit(member: Me) {
  const heard: Uint8Array[] = [];
  const closes: number[] = [];
  const line = {
    send: (frame: Uint8Array) => heard.push(frame),
    close: (code: number) => void closes.push(code),
    buffered: () => 0,
  };
  const seat = new Seat({ member: member.id, wantsSaved: true, now: () => now, line });
  const refusals = () =>
    heard.flatMap((frame) => {
      const decoder = decoding.createDecoder(frame);
      return decoding.readVarUint(decoder) === refusedMessage ? [decodeRefused(decoder)] : [];
    });
  return { seat, heard, closes, refusals };
}

function read(frame: Uint8Array): Told | undefined {
  const decoder = decoding.createDecoder(frame);
  decoding.readVarUint(decoder);
  return decodeTogetherTold(decoder);
}

const play = (atMs: number): SharedPlay => {
  return { kind: "playing", tick: 192, atMs, percent: 80, countIn: 1, loop: undefined };
};

const toldNow = () => read(together.frame());

test("W10 the last word holds, under the next revision and the socket's own member", () => {
  const first = sit(ada);
  const second = sit(cleo);
  expect(toldNow()).toEqual({ kind: "nothing" });
  together.ask(first.seat, ada, play(5_600));
  together.ask(second.seat, cleo, { kind: "stopped" });
  expect(told).toEqual([
    { kind: "word", revision: 1, by: "ada", wish: play(5_600) },
    { kind: "word", revision: 2, by: "cleo", wish: { kind: "stopped" } },
  ]);
  expect(toldNow()).toEqual(told[1]);
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
  together.ask(seat, ada, play(now + togetherReachMs + 1));
  now = togetherReachMs * 2;
  together.ask(seat, ada, play(now - togetherReachMs - 1));
  expect(refusals()).toEqual(["malformed", "malformed"]);
  expect(told).toEqual([]);
  expect(toldNow()).toEqual({ kind: "nothing" });
});

test("W10 who was removed has no word", () => {
  const { seat, refusals } = sit(ada);
  together.ask(seat, undefined, play(now));
  expect(told).toEqual([]);
  expect(refusals()).toEqual(["not-yours"]);
});

test("W10 asking too often is refused, and is taken again after a while", () => {
  const { seat, refusals, heard } = sit(ada);
  for (let i = 0; i < togetherAsksBurst + 2; i += 1) together.ask(seat, ada, play(now));
  expect(told).toHaveLength(togetherAsksBurst);
  expect(refusals()).toEqual(["too-fast", "too-fast"]);
  now += 1_000;
  together.ask(seat, ada, play(now));
  expect(told).toHaveLength(togetherAsksBurst + 1);
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
  together.leave(starter.seat);
  together.leave(third.seat);
  expect(told).toHaveLength(1);
  together.leave(other.seat);
  expect(told.slice(1)).toEqual([{ kind: "nothing" }]);
  expect(toldNow()).toEqual({ kind: "nothing" });
  // The next word is told from the one that ended.
  together.ask(third.seat, cleo, play(now));
  expect(told.at(-1)).toMatchObject({ revision: 2 });
});

test("W10 it ends when the last one says that it hears it no more", () => {
  const [starter, other] = [sit(ada), sit(cleo)];
  together.ask(starter.seat, ada, play(now));
  together.answer(other.seat, { sentMs: 0, isAlong: true });
  together.answer(starter.seat, { sentMs: 0, isAlong: false });
  together.answer(starter.seat, { sentMs: 0, isAlong: false });
  expect(told).toHaveLength(1);
  together.answer(other.seat, { sentMs: 0, isAlong: false });
  expect(told.slice(1)).toEqual([{ kind: "nothing" }]);
});

test("W10 a stop outlasts who said it, and an old word is told to nobody who comes", () => {
  const { seat } = sit(ada);
  together.ask(seat, ada, { kind: "stopped" });
  together.leave(seat);
  expect(toldNow()).toMatchObject({ revision: 1 });
  now += togetherLastsMs + 1;
  expect(toldNow()).toEqual({ kind: "nothing" });
});

test("W15 in another era the word is void, and who agreed the last clock comes again", () => {
  const [starter, other] = [sit(ada), sit(cleo)];
  together.ask(starter.seat, ada, play(now));
  together.answer(starter.seat, { sentMs: 0, isAlong: true });
  [now, era] = [1e12, 1];
  together.answer(other.seat, { sentMs: 0, isAlong: false });
  expect(told.slice(1)).toEqual([{ kind: "nothing" }]);
  expect([starter.closes, other.closes]).toEqual([[closeCode.tryLater], []]);
  together.ask(other.seat, cleo, play(now));
  expect(told.at(-1)).toMatchObject({ revision: 2, wish: play(1e12) });
  expect(other.closes).toEqual([]);
});
