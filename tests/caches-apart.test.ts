/**
 * A program that has followed a board through many edits says of it what one says that has just
 * started: the same findings, ways out, grips and parts, whatever it keeps from before.
 */
import { laneIds, type Slot } from "@halflap/board/board";
import { fillDocuments } from "@halflap/board/copy";
import { type BoardDocuments, emptyDocuments, laneDocument } from "@halflap/board/documents";
import { setWishes } from "@halflap/board/edits/wishes";
import * as reading from "@halflap/board/read";
import type { LaneWishes } from "@halflap/board/wishes";
import * as checking from "@halflap/checker/check";
import * as waysOut from "@halflap/checker/ways-out";
import type { FitRequest } from "@halflap/fitter/answer";
import * as fitting from "@halflap/fitter/fit";
import type { Ground } from "@halflap/fitter/fit-ground";
import * as ground from "@halflap/fitter/fit-ground";
import { weightsFor } from "@halflap/fitter/leanings";
import { printGrip } from "@halflap/theory/grip";
import { fret } from "@halflap/theory/units";
import { describe, expect, test, vi } from "vitest";
import { fullBoard } from "./support/full-board.ts";
import { simd } from "./support/kernel.ts";
import { kinds } from "./support/random-edits.ts";
import { seeded } from "./support/seeded.ts";

// Modules that are loaded anew beside many other tests take their time.
vi.setConfig({ testTimeout: 180_000 });

const program = { ...reading, ...checking, ...waysOut, ...fitting, ...ground };

/** The same with modules of its own, and so with nothing kept from before. */
async function startedAnew(): Promise<typeof program> {
  vi.resetModules();
  return {
    ...(await import("@halflap/board/read")),
    ...(await import("@halflap/checker/check")),
    ...(await import("@halflap/checker/ways-out")),
    ...(await import("@halflap/fitter/fit")),
    ...(await import("@halflap/fitter/fit-ground")),
  };
}

const tools = { minPlus: simd() };
/** So many of the graver findings are asked about ways out. */
const gravesAsked = 1;
const request: FitRequest = { lanes: ["lower"], leaning: "plain", answers: 1, bars: undefined };

/** What a program that reads these documents says of them as they are now. */
function askerOf(asked: typeof program, docs: BoardDocuments) {
  const { makeReader, makeChecker, waysOut, groundOf, fit } = asked;
  const [read, checker, trier] = [makeReader(docs), makeChecker(), makeChecker()];
  return () => {
    const board = read();
    const findings = checker(board);
    const graves = findings.filter(({ severity }) => severity === "stop" || severity === "fix");
    const ways = graves
      .slice(0, gravesAsked)
      .map((finding) => waysOut(board, finding, { checker: trier }));
    const ground = groundOf(board, { ...request, lanes: laneIds }, weightsFor("plain"));
    const grips = "choices" in ground ? listed(ground.choices) : ground.words;
    return { findings, ways, grips, parts: fit(board, request, tools) };
  };
}

/** The grips to choose from, in one line for each slot of each lane. */
function listed(choices: Ground["choices"]): readonly string[] {
  return laneIds.flatMap((lane) =>
    [...choices[lane]].map(([slot, grips]) =>
      [`${lane} ${slot}: ${grips.length}`, ...grips.map(printGrip)].join(" "),
    ),
  );
}

/** So that whole parts are quick. */
const few: Partial<LaneWishes> = {
  stringSets: [
    [5, 4, 3],
    [4, 3, 2],
    [3, 2, 1],
  ],
  highestFret: fret(12),
};

function filled(): BoardDocuments {
  const docs = emptyDocuments();
  fillDocuments(docs, fullBoard(4));
  for (const lane of laneIds) setWishes(docs[laneDocument(lane)], few);
  return docs;
}

const edits = [
  ...[kinds.setChord, kinds.setChord, kinds.setChord, kinds.setChord],
  ...[kinds.placeGrip, kinds.setHasBass, kinds.setCapo, kinds.setKey, kinds.setTempo],
];

describe("after edits a program says what one that has just started says", () => {
  test.each([1, 2, 4, 5])("seed %i", async (seed) => {
    const chance = seeded(seed);
    const docs = filled();
    const read = program.makeReader(docs);
    const kept = askerOf(program, docs);
    for (let asked = 1; asked <= 2; asked += 1) {
      for (let edit = 1; edit <= 5; edit += 1) {
        chance.pick(edits)?.({ docs, board: read(), chance, makeId: () => `n${asked}-${edit}` });
      }
      const anew = askerOf(await startedAnew(), docs);
      expect(kept(), `asked ${asked}`).toEqual(anew());
    }
  });

  test("one that was told of a chord as it is not is caught", async () => {
    const docs = filled();
    const misled = await startedAnew();
    const board = misled.makeReader(docs)();
    const sections = board.sections.map((section) => ({
      ...section,
      bars: section.bars.map((bar) => ({ ...bar, slots: bar.slots.map(sparingNothing) })),
    }));
    misled.groundOf({ ...board, sections }, request, weightsFor("plain"));
    const anew = askerOf(await startedAnew(), docs)();
    const said = askerOf(misled, docs)();
    expect(said.grips).not.toEqual(anew.grips);
    expect(said.findings).toEqual(anew.findings);
  });
});

function sparingNothing(slot: Slot): Slot {
  const { chord } = slot;
  return chord?.kind === "chord" ? { ...slot, chord: { ...chord, omittable: [] } } : slot;
}
