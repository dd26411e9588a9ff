/**
 * The cost of a step against the checker's rules: R29 is charged what it says, and the rules that
 * the steps only bound say nothing where nothing is charged.
 */
import { type Board, type LaneId, laneIds, type SlotId } from "@halflap/board/board";
import { barsAhead } from "@halflap/checker/bar-by-bar";
import { passageRules } from "@halflap/checker/catalogue";
import type { RuleId } from "@halflap/checker/finding";
import { movesFrom } from "@halflap/checker/hand-moves";
import { fastMove } from "@halflap/checker/impossible-move";
import { heldGrips } from "@halflap/fitter/held-grip";
import { never } from "@halflap/fitter/lattice";
import { weightsFor } from "@halflap/fitter/leanings";
import { lineSteps, stepCauses, stepsByRule, stepTable } from "@halflap/fitter/step-costs";
import { type Tune, tuneOf } from "@halflap/fitter/tune-costs";
import { findingSteps } from "@halflap/fitter/weights";
import fc from "fast-check";
import { expect, test } from "vitest";
import { boardOfCopy } from "./support/copies.ts";
import { copyOfPassage } from "./support/passages/passage.ts";
import { randomPassage } from "./support/passages/random-passages.ts";

const weights = weightsFor("plain");
/** With an ending, so that nothing follows the last bar for the checker or the fitter. */
const board = randomPassage.map((passage) => ({
  ...boardOfCopy(copyOfPassage(passage)),
  ending: "on one",
}));
const nothing = { upper: new Map(), lower: new Map() };

function charges(original: Board, tune: Tune): ReadonlyMap<RuleId, number> {
  const sums = new Map<RuleId, number>();
  const add = (rule: RuleId, steps: number) => sums.set(rule, (sums.get(rule) ?? 0) + steps);
  const list = (lane: LaneId, slot: SlotId) => {
    const grip = original.lanes[lane].grips.get(slot);
    return grip && heldGrips([grip], tune.played.frame.setups[lane]);
  };
  for (const link of tune.links) {
    for (const lane of laneIds) {
      const [from, to] = [list(lane, link.from), list(lane, link.to)];
      if (from === undefined || to === undefined) continue;
      const step = { lane, from, to, kinds: link.lanes[lane] };
      for (const [rule, steps] of stepsByRule(step, tune.taste)) add(rule, steps);
    }
  }
  for (const { slot, lines } of tune.places) {
    for (const lane of laneIds) {
      const held = list(lane, slot)?.grips[0];
      if (held !== undefined) add("R29", lineSteps(lines[lane], held, tune.taste));
    }
  }
  return sums;
}

/** What all rules about passages say, in steps by rule. */
function said({ played }: Tune): ReadonlyMap<RuleId, number> {
  const sums = new Map<RuleId, number>();
  for (const { passage } of played.passages) {
    for (const { rule, severity } of passageRules.flatMap((ask) => ask(passage, played.tune))) {
      sums.set(rule, (sums.get(rule) ?? 0) + findingSteps(weights, severity));
    }
  }
  return sums;
}

/** R29 between two notes of a figure, which no grip can change. */
function betweenLines({ played }: Tune): number {
  const { tune } = played;
  const moves = played.passages.flatMap(({ passage }) =>
    passage.bars.flatMap((bar, index) =>
      laneIds.flatMap((lane) =>
        movesFrom(bar, barsAhead(passage, index), lane, tune.setups)
          .filter(({ from, to }) => from.kind === "line" && to.kind === "line")
          .map((move) => fastMove(move, lane, tune)?.severity),
      ),
    ),
  );
  return moves.reduce((sum, severity) => sum + (severity ? findingSteps(weights, severity) : 0), 0);
}

test("F27 R29 is charged exactly what it says of moves from and to grips", () => {
  let spoken = 0;
  fc.assert(
    fc.property(board, (original) => {
      const tune = tuneOf(original, nothing, weights);
      const says = said(tune).get("R29") ?? 0;
      expect(charges(original, tune).get("R29") ?? 0).toBe(says - betweenLines(tune));
      if (says > 0) spoken += 1;
    }),
    { numRuns: 150 },
  );
  expect(spoken).toBeGreaterThan(20);
});

test("F24 R17 and R32 say nothing where no step is charged for them", () => {
  const spoken = new Map<RuleId, number>();
  fc.assert(
    fc.property(board, (original) => {
      const plain = withoutFigures(original);
      const tune = tuneOf(plain, nothing, weights);
      const [charged, says] = [charges(plain, tune), said(tune)];
      for (const rule of ["R17", "R32"] as const) {
        if ((says.get(rule) ?? 0) === 0) continue;
        expect(charged.get(rule) ?? 0).toBeGreaterThan(0);
        spoken.set(rule, (spoken.get(rule) ?? 0) + 1);
      }
    }),
    { numRuns: 150 },
  );
  expect([...spoken.values()].filter((count) => count > 5).length).toBe(2);
});

test("F31 each entry of a table is what its step costs by itself", () => {
  let [compared, dear] = [0, 0];
  fc.assert(
    fc.property(board, (original) => {
      const tune = tuneOf(original, nothing, weights);
      for (const lane of laneIds) {
        const list = heldGrips(
          [...original.lanes[lane].grips.values()],
          original.lanes[lane].setup,
        );
        for (const { lanes } of tune.links) {
          const step = { lane, from: list, to: list, kinds: lanes[lane] };
          const table = stepTable(step, tune.taste);
          const alone = list.grips.map(({ grip }) => heldGrips([grip], list.setup));
          const expected = alone.flatMap((from) =>
            alone.map((to) =>
              stepCauses({ ...step, from, to }, tune.taste).reduce(
                (sum, { steps }) => sum + steps,
                0,
              ),
            ),
          );
          expect([...table]).toEqual(expected.map((steps) => Math.min(steps, never - 1)));
          compared += expected.length;
          dear += expected.filter((steps) => steps > 0).length;
        }
      }
    }),
    { numRuns: 100 },
  );
  expect(compared).toBeGreaterThan(1000);
  expect(dear).toBeGreaterThan(500);
});

function withoutFigures(original: Board): Board {
  const { upper, lower } = original.lanes;
  const lanes = { upper: { ...upper, fills: new Map() }, lower: { ...lower, fills: new Map() } };
  return { ...original, lanes };
}
