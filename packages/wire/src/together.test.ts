/** W10: what is said is heard, and nothing else is. */
import { barId, sectionId } from "@halflap/board/ids";
import fc from "fast-check";
import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import { expect, test } from "vitest";
import {
  clockQuestionMessage,
  decodeClockAnswer,
  decodeClockQuestion,
  decodeTogetherAsk,
  decodeTogetherTold,
  encodeClockAnswer,
  encodeClockQuestion,
  encodeTogetherAsk,
  encodeTogetherTold,
  type SharedPlay,
  type SharedWish,
  togetherAskMessage,
  togetherToldMessage,
} from "./together.ts";

const play: SharedPlay = {
  kind: "playing",
  tick: 576,
  atMs: 81_234.567,
  percent: 75,
  countIn: 2,
  loop: undefined,
};

function after(number: number, frame: Uint8Array): decoding.Decoder {
  const decoder = decoding.createDecoder(frame);
  expect(decoding.readVarUint(decoder)).toBe(number);
  return decoder;
}

const wishes: readonly SharedWish[] = [
  { kind: "stopped" },
  play,
  { ...play, loop: { kind: "section", section: sectionId("verse") } },
  { ...play, loop: { kind: "bars", from: barId("solo~b1"), to: barId("b4") } },
];

test.each(wishes)("W10 %j comes through", (wish) => {
  const asked = after(togetherAskMessage, encodeTogetherAsk(wish));
  expect(decodeTogetherAsk(asked)).toEqual(wish);
  expect(decoding.hasContent(asked)).toBe(false);
  const word = { kind: "word", revision: 7, by: "ada", wish } as const;
  const told = after(togetherToldMessage, encodeTogetherTold(word));
  expect(decodeTogetherTold(told)).toEqual(word);
});

test("W10 questions, answers and nothing come through", () => {
  const question = { sentMs: 1_234.5, isAlong: true };
  const asked = after(clockQuestionMessage, encodeClockQuestion(question));
  expect(decodeClockQuestion(asked)).toEqual(question);
  const answer = { sentMs: 0.001, serverMs: 9e9 };
  for (const nodes of [undefined, "cut-off", { withinMs: 0 }, { withinMs: 0.25 }] as const) {
    const answered = after(103, encodeClockAnswer({ ...answer, nodes }));
    expect(decodeClockAnswer(answered)).toEqual({ ...answer, nodes });
    expect(decoding.hasContent(answered)).toBe(false);
  }
  const nothing = after(togetherToldMessage, encodeTogetherTold({ kind: "nothing" }));
  expect(decodeTogetherTold(nothing)).toEqual({ kind: "nothing" });
});

test.each<[string, Partial<Record<"tick" | "percent" | "countIn", number>>]>([
  ["slower than it goes", { percent: 39 }],
  ["faster than it goes", { percent: 151 }],
  ["a tick beyond any tune", { tick: 2 ** 31 }],
  ["a long count-in", { countIn: 5 }],
])("W10 %s is none", (_what, change) => {
  const asked = after(togetherAskMessage, encodeTogetherAsk({ ...play, ...change }));
  expect(decodeTogetherAsk(asked)).toBeUndefined();
});

test.each([
  ["a section that is no id", ["no id"]],
  ["a bar that is no id", ["b1", "<b2>"]],
  ["three ends", ["a", "b", "c"]],
])("W10 %s is no loop", (_what, ids) => {
  const encoder = encoding.createEncoder();
  for (const number of [1, 0, 0, 100, 0, ids.length]) encoding.writeVarUint(encoder, number);
  for (const id of ids) encoding.writeVarString(encoder, id);
  const decoder = decoding.createDecoder(encoding.toUint8Array(encoder));
  expect(decodeTogetherAsk(decoder)).toBeUndefined();
});

test("W10 random bytes are a fit wish, none, or an early end", () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 60 }), (bytes) => {
      let wish: SharedWish | undefined;
      try {
        wish = decodeTogetherAsk(decoding.createDecoder(bytes));
      } catch {
        return; // lib0 throws at the end of the bytes
      }
      if (wish?.kind !== "playing") return;
      expect(wish.percent).toBeGreaterThanOrEqual(40);
      expect(wish.percent).toBeLessThanOrEqual(150);
      expect(Number.isFinite(wish.atMs)).toBe(true);
    }),
    { numRuns: 3_000 },
  );
});
