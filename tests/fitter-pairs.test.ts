/**
 * The cost of a pair of grips against the checker's rules themselves: what a rule about one slot
 * says of it, weighed, is what its judge charges.
 */
import type { LaneId } from "@halflap/board/board";
import { slotRules } from "@halflap/checker/catalogue";
import type { RuleId } from "@halflap/checker/finding";
import { foreignTones } from "@halflap/checker/foreign-tones";
import type { Segment } from "@halflap/checker/segments";
import type { CheckedPassage } from "@halflap/checker/tune";
import { heldGrips } from "@halflap/fitter/held-grip";
import type { Taste } from "@halflap/fitter/judge";
import { never } from "@halflap/fitter/lattice";
import { leanings, weightsFor } from "@halflap/fitter/leanings";
import { costsByRule, pairCauses, pairTable } from "@halflap/fitter/pair-costs";
import { type Played, playedBoard } from "@halflap/fitter/played";
import { slotKinds, type TimedKind } from "@halflap/fitter/slot-kinds";
import { findingSteps, weightTable } from "@halflap/fitter/weights";
import { printGrip } from "@halflap/theory/grip";
import fc from "fast-check";
import { expect, test } from "vitest";
import { boardOfCopy } from "./support/copies.ts";
import { copyOfPassage } from "./support/passages/passage.ts";
import { randomPassage } from "./support/passages/random-passages.ts";

/** The rules whose judges say exactly what they say; R05 is charged as the worst it may become. */
const exact: readonly RuleId[] = [
  ...(["R02", "R03", "R04", "R06", "R07", "R08", "R09", "R10", "R11"] as const),
  ...(["R13", "R14", "R30"] as const),
];
const weights = weightsFor("plain");
const board = randomPassage.map((passage) => boardOfCopy(copyOfPassage(passage)));

/** A slot as one passage plays it. */
type Place = {
  readonly passage: CheckedPassage;
  readonly segment: Segment;
  readonly kind: TimedKind;
  readonly taste: Taste;
  readonly played: Played;
};

function placesOf(original: Parameters<typeof playedBoard>[0]): readonly Place[] {
  const played = playedBoard(original);
  const kinds = slotKinds(original, played);
  const taste: Taste = { frame: played.frame, weights, high: "upper" };
  return played.passages.flatMap(({ passage }) =>
    passage.segments.flatMap((segment) => {
      const [kind, ...more] = kinds.get(segment.slot.id) ?? [];
      return kind === undefined || more.length > 0
        ? []
        : [{ passage, segment, kind, taste, played }];
    }),
  );
}

function charged({ segment, kind, taste, played }: Place, rule: RuleId): number {
  const list = (lane: LaneId) => {
    const grip = segment.grips[lane];
    return grip && heldGrips([grip], played.frame.setups[lane]);
  };
  const lists = { upper: list("upper"), lower: list("lower") };
  return costsByRule([kind], lists, taste).get(rule) ?? 0;
}

function said({ segment, passage, played, kind }: Place, rule: RuleId): number {
  const inSlot = slotRules.flatMap((ask) => ask(segment, played.tune));
  // A pedal is known only by its neighbours: the slot is asked by itself.
  const alone = foreignTones({ ...passage, segments: [segment] }, played.tune);
  // A grip that is not heard is nobody's cost.
  const isHeard = (lanes: readonly LaneId[]) =>
    kind.kind.sounding === "both" || lanes.every((lane) => lane === kind.kind.sounding);
  return [...inSlot, ...alone]
    .filter((hit) => hit.rule === rule && isHeard(hit.lanes))
    .reduce((sum, { severity }) => sum + findingSteps(weights, severity) * kind.times, 0);
}

test("what the rules about a slot say of a pair is what their judges charge", () => {
  const spoken = new Map<RuleId, number>();
  fc.assert(
    fc.property(board, (original) => {
      for (const place of placesOf(original)) {
        for (const rule of exact) {
          const cost = said(place, rule);
          expect([rule, charged(place, rule)]).toEqual([rule, cost]);
          if (cost > 0) spoken.set(rule, (spoken.get(rule) ?? 0) + 1);
        }
      }
    }),
    { numRuns: 150 },
  );
  expect(exact.filter((rule) => (spoken.get(rule) ?? 0) < 3)).toEqual([]);
});

test("each entry of a table is what its two grips cost by themselves", () => {
  let compared = 0;
  fc.assert(
    fc.property(board, (original) => {
      const lists = {
        upper: listOf(original, "upper"),
        lower: listOf(original, "lower"),
      };
      for (const { kind, taste } of placesOf(original)) {
        const table = pairTable([kind], lists, taste);
        const expected = lists.upper.grips.flatMap((above) =>
          lists.lower.grips.map((below) => {
            const alone = {
              upper: heldGrips([above.grip], lists.upper.setup),
              lower: heldGrips([below.grip], lists.lower.setup),
            };
            return pairCauses([kind], alone, taste).reduce((sum, { steps }) => sum + steps, 0);
          }),
        );
        expect([...table]).toEqual(expected.map((steps) => Math.min(steps, never - 1)));
        compared += expected.length;
      }
    }),
    { numRuns: 60 },
  );
  expect(compared).toBeGreaterThan(1000);
});

/** All grips of a lane, each once. */
function listOf({ lanes }: Parameters<typeof playedBoard>[0], lane: LaneId) {
  const { grips, setup } = lanes[lane];
  const different = new Map([...grips.values()].map((grip) => [printGrip(grip), grip]));
  return heldGrips([...different.values()], setup);
}

test("R05 is charged at least what it says, and nothing where it can't speak", () => {
  let spoken = 0;
  fc.assert(
    fc.property(board, (original) => {
      for (const place of placesOf(original)) {
        const [cost, charge] = [said(place, "R05"), charged(place, "R05")];
        expect(charge).toBeGreaterThanOrEqual(cost);
        if (charge > 0) expect(cost).toBeGreaterThan(0);
        if (cost > 0) spoken += 1;
      }
    }),
    { numRuns: 300 },
  );
  expect(spoken).toBeGreaterThan(3);
});

test("weights are halves of a semitone, so that all costs are whole steps", () => {
  for (const { value } of Object.values(weightTable)) expect(value * 2).toBe(Math.round(value * 2));
  for (const { changes } of Object.values(leanings)) {
    for (const value of Object.values(changes)) expect(value * 2).toBe(Math.round(value * 2));
  }
});
