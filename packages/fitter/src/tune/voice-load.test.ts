/** How much each slot crowds the voice, beside what R27 measures of the whole. Limits ours. */
import { check } from "@halflap/checker/check";
import {
  bars,
  type Played,
  type SmallBoard,
  smallBoard,
} from "@halflap/checker/test-support/small-board";
import { expect, test } from "vitest";
import { playedBoard } from "./played.ts";
import { voiceLoads } from "./voice-load.ts";

const voice = { lane: undefined, type: "alto", range: undefined } as const;
const lower = "D.......";
/** Tops: G4 in the alto's range, and B flat 5 above it. */
const inRange: Played = ["C7", "x-x-x-9-8-x", "x-x-2-3-1-x"];
const above: Played = ["C7", "x-x-x-15-17-18", "x-x-2-3-1-x"];

/** What R27 measures, and the upper lane's rate in each slot with what is fixed there. */
function crowded(small: SmallBoard) {
  const board = smallBoard({ voice, ...small });
  const [first] = playedBoard(board).passages;
  if (first === undefined) throw new Error("there is a passage");
  const loads = [...voiceLoads(first.passage, playedBoard(board).tune)];
  return {
    measured: check(board).find(({ rule }) => rule === "R27")?.measured,
    rates: loads.map(([{ slot }, load]) => [slot.id, load.voice?.rates.upper, load.voice?.fixed]),
  };
}

const phrases = [
  { bar: 1, beat: 4, beats: 1 },
  { bar: 2, beat: 4, beats: 1 },
];

test("F24 a push over the bar line counts with the grip that it sounds", () => {
  const strums = { upper: "D.D.D.D~U", lower };
  const rates = [
    ["s1", 2, 0],
    ["s2", 2, 0],
    ["s3", 2, 0],
  ];
  const crowds = crowded({ sections: bars(inRange, inRange, inRange), strums, phrases });
  expect(crowds).toEqual({ measured: 2, rates });
  const clear = crowded({ sections: bars(above, above, above), strums, phrases });
  expect(clear).toEqual({ measured: undefined, rates });
});

test("F24 a push inside a bar counts where it is struck, though its slot be unsung", () => {
  const next: Played = ["F7", "x-x-x-8-10-x", "x-x-3-2-4-x"];
  const strums = { upper: "DUD~UD...", lower };
  const one = { sections: [[[inRange, next]]], strums, phrases: [{ bar: 1, beat: 2, beats: 1 }] };
  expect(crowded(one)).toEqual({
    measured: 2,
    rates: [
      ["s1", 2, 0],
      ["s2", 2, 0],
    ],
  });
});

test("F24 a push that leaves the passage counts to the slot in which it is struck", () => {
  const strums = { upper: "D.D.D.D~U", lower };
  const sections = [...bars(inRange), ...bars(inRange)];
  expect(crowded({ sections, strums, phrases: phrases.slice(0, 1) }).rates).toEqual([["s1", 2, 0]]);
});
