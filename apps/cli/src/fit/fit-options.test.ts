/** What may be asked of `halflap fit`, and what is answered to the rest. */
import { expect, test } from "vitest";
import { type FitOptions, type FitWords, readFitOptions } from "./fit-options.ts";

const nothing: FitWords = {
  ...{ json: false, whole: false, lane: undefined, leaning: undefined, answers: undefined },
  ...{ bars: undefined, take: undefined, why: undefined, copy: undefined },
};

test.each<readonly [Partial<FitWords>, Partial<FitOptions>]>([
  [{}, { lanes: ["upper", "lower"], leaning: "plain", answers: 3, take: 1, bars: undefined }],
  [{ lane: "lower" }, { lanes: ["lower"] }],
  [{ leaning: "close together" }, { leaning: "close together" }],
  [{ leaning: "Easy-for-the-singer" }, { leaning: "easy for the singer" }],
  [
    { answers: "8", take: "8" },
    { answers: 8, take: 8 },
  ],
  [
    { bars: "1-8,13" },
    {
      bars: [
        { from: 1, to: 8 },
        { from: 13, to: 13 },
      ],
    },
  ],
  [{ bars: "2 - 3" }, { bars: [{ from: 2, to: 3 }] }],
  [{ why: "9" }, { why: { bar: 9, slot: undefined } }],
  [{ why: "9.2" }, { why: { bar: 9, slot: 2 } }],
  [
    { copy: "out.json", whole: true, json: true },
    { copy: "out.json", whole: true, json: true },
  ],
])("reads %j", (words, options) => {
  const read = readFitOptions("a.json", { ...nothing, ...words });
  expect(read).toMatchObject({ ok: true, value: { file: "a.json", ...options } });
});

test.each<readonly [Partial<FitWords>, string]>([
  [{ lane: "top" }, '--lane is upper, lower or both, not "top".'],
  [
    { leaning: "jazzy" },
    '--leaning is one of "plain", "close together", "more movement on top", ' +
      '"easy for the singer", "far apart", not "jazzy".',
  ],
  [{ answers: "0" }, '--answers is 1 to 8, not "0".'],
  [{ answers: "9" }, '--answers is 1 to 8, not "9".'],
  [{ answers: "2.5" }, '--answers is 1 to 8, not "2.5".'],
  [{ take: "4" }, '--take is the number of an answer, 1 to 3 here, not "4".'],
  [{ answers: "1", take: "2" }, '--take is the number of an answer, 1 here, not "2".'],
  [{ bars: "" }, '--bars is numbers of bars, such as 1-8,13; "" is none.'],
  [{ bars: "1-8,x" }, '--bars is numbers of bars, such as 1-8,13; "x" is none.'],
  [{ bars: "1-2-3" }, '--bars is numbers of bars, such as 1-8,13; "1-2-3" is none.'],
  [{ bars: "8-1" }, '--bars has "8-1": from 8 to 1 is no bar.'],
  [{ bars: "0-2" }, '--bars is numbers of bars, such as 1-8,13; "0-2" is none.'],
  [{ why: "9." }, '--why is a bar, and which chord in it if you like, such as 9 or 9.2, not "9.".'],
  [{ why: "F7" }, '--why is a bar, and which chord in it if you like, such as 9 or 9.2, not "F7".'],
  [{ copy: "-" }, "--copy is the name of a file that is not there yet."],
])("refuses %j and says what is meant", (words, sentence) => {
  const read = readFitOptions("a.json", { ...nothing, ...words });
  expect(read).toEqual({ ok: false, error: sentence });
});
