/** Phrases and gaps laid over a passage. */
import type { Board } from "@halflap/board/board";
import { gapOwnerId, phraseId, voiceId } from "@halflap/board/ids";
import type { GapOwner, Phrase } from "@halflap/board/singing";
import { ticks } from "@halflap/theory/units";
import { expect, test } from "vitest";
import { timelineOf } from "./passages.ts";
import { barOf, charted } from "./test-support/played-board.ts";

const board = charted("| F7 | F7 | F7 |");

function phrase(bar: number, start: number, length: number): Phrase {
  return {
    id: phraseId(`p${bar}-${start}`),
    bar: barOf(board, bar),
    start: ticks(start),
    length: ticks(length),
    melody: [],
  };
}

function owned(bar: number, at: number, owner: GapOwner["owner"]): GapOwner {
  return { id: gapOwnerId(`g${bar}-${at}`), bar: barOf(board, bar), at: ticks(at), owner };
}

function passageOf(more: Partial<Board>) {
  const [passage] = timelineOf({ ...board, ...more }).passages;
  if (passage === undefined) throw new Error("a chart has a passage");
  return passage;
}

const pairs = (stretches: readonly { readonly start: number; readonly end: number }[]) =>
  stretches.map(({ start, end }) => [start, end]);

test("S8 phrases lie in ticks from the start of the passage, by start", () => {
  const { sung } = passageOf({ phrases: [phrase(2, 48, 96), phrase(1, 0, 24)] });
  expect(pairs(sung)).toEqual([
    [0, 24],
    [240, 336],
  ]);
});

test("S8 a phrase is cut where its section ends; one that begins beyond it is none", () => {
  const { sung } = passageOf({ phrases: [phrase(3, 96, 960), phrase(3, 192, 48)] });
  expect(pairs(sung)).toEqual([[480, 576]]);
});

test("S9 gaps lie before, between and after; phrases that overlap or touch leave none", () => {
  const phrases = [phrase(1, 48, 96), phrase(1, 96, 96), phrase(2, 0, 48), phrase(3, 0, 96)];
  expect(pairs(passageOf({ phrases }).gaps)).toEqual([
    [0, 48],
    [240, 384],
    [480, 576],
  ]);
});

test("S9 where nobody sings there are no gaps", () => {
  expect(passageOf({}).gaps).toEqual([]);
});

test("S9 a gap belongs to whoever has a place in it, from its start to before its end", () => {
  const phrases = [phrase(1, 0, 96), phrase(2, 0, 96)];
  const owners = (gapOwners: readonly GapOwner[]) =>
    passageOf({ phrases, gapOwners }).gaps.map(({ owner }) => owner);
  expect(owners([owned(1, 96, "upper")])).toEqual(["upper", undefined]);
  expect(owners([owned(2, 0, "upper")])).toEqual([undefined, undefined]);
  expect(owners([owned(3, 0, "open")])).toEqual([undefined, "open"]);
});

test("S8 a round without a singer is not sung once singers are named; else every round is", () => {
  const voice = { id: voiceId("v"), name: "V", lane: undefined, type: undefined, range: undefined };
  const [entry] = board.form;
  if (entry === undefined) throw new Error("a chart has a form");
  const twice = { phrases: [phrase(1, 0, 96)], voices: [voice] };
  const sung = (singers: (typeof entry)["singers"]) =>
    timelineOf({ ...board, ...twice, form: [{ ...entry, times: 2, singers }] }).passes.map(
      ({ passage }) => passage.sung.map((one) => one.voice?.name),
    );
  expect(sung([])).toEqual([[undefined], [undefined]]);
  expect(sung([undefined, voice.id])).toEqual([[], ["V"]]);
});
