/**
 * The fit of the demo tune: what it costs adds up, the checker agrees with it, and it is no worse
 * than the parts that were made by hand.
 */
import { type Board, type LaneId, laneIds, type SlotId } from "@halflap/board/board";
import { demoDraft, demoSolution } from "@halflap/board/demo";
import { editedBoard } from "@halflap/board/edited-board";
import type { LaneWishes } from "@halflap/board/wishes";
import { check } from "@halflap/checker/check";
import type { Finding } from "@halflap/checker/finding";
import { isStanding } from "@halflap/checker/weights";
import type { Answer, FitRequest } from "@halflap/fitter/answer";
import { distanceLeast, fit, fitUnder } from "@halflap/fitter/fit";
import { groundOf } from "@halflap/fitter/fit-ground";
import { costOf, stepsPerSemitone } from "@halflap/fitter/lattice";
import { weightsFor } from "@halflap/fitter/leanings";
import { mended } from "@halflap/fitter/mended";
import { gripRules } from "@halflap/fitter/repair";
import { solve } from "@halflap/fitter/solve";
import { costParts, latticeOf } from "@halflap/fitter/tune-costs";
import { type Weights, weightNames } from "@halflap/fitter/weights";
import { whyThis } from "@halflap/fitter/why";
import { printGrip } from "@halflap/theory/grip";
import { fret, midiNote } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { boardOfCopy } from "./support/copies.ts";
import { simd } from "./support/kernel.ts";
import { mirrored } from "./support/mirrored.ts";

const tools = { minPlus: simd() };
/** The draft with both capos off, as the parts made by hand are. */
const draft = wishing(boardOfCopy(demoDraft()), "upper", { capo: fret(0) });
const solution = boardOfCopy(demoSolution());
const both: FitRequest = { lanes: laneIds, leaning: "plain", answers: 1, bars: undefined };

/** Few grips, so that whole tunes are quick: three strings of two sets. */
const smallSets: Partial<LaneWishes> = {
  stringSets: [
    [4, 3, 2],
    [3, 2, 1],
  ],
  highestFret: fret(12),
};

function wishing(board: Board, lane: LaneId, wishes: Partial<LaneWishes>): Board {
  const own = board.lanes[lane];
  const wished = { ...own, wishes: { ...own.wishes, ...wishes } };
  return { ...board, lanes: { ...board.lanes, [lane]: wished } };
}

function answersFor(board: Board, request: Partial<FitRequest> = {}): readonly Answer[] {
  const result = fit(board, { ...both, ...request }, tools);
  if (result.kind !== "answers") throw new Error(result.words);
  return result.answers;
}

function bestFor(board: Board, request: Partial<FitRequest> = {}): Answer {
  const [best] = answersFor(board, request);
  if (best === undefined) throw new Error("there is an answer");
  return best;
}

function withAnswer(board: Board, { parts }: Answer): Board {
  return parts.reduce((made, { lane, edits }) => editedBoard(made, lane, edits), board);
}

function isBlocking(finding: Finding): boolean {
  return isStanding(finding) && (finding.severity === "stop" || finding.severity === "fix");
}

function textsOf({ parts }: Answer): readonly string[] {
  return parts.flatMap(({ lane, grips }) =>
    [...grips].map(([slot, grip]) => `${lane} ${slot} ${printGrip(grip)}`),
  );
}

describe("the draft fitted in both lanes", () => {
  const best = bestFor(draft);
  const whole = withAnswer(draft, best);

  test("is proven best, and its causes add up to its cost", () => {
    const sum = best.costs.causes.reduce((total, { cost }) => total + cost, 0);
    expect(sum).toBe(best.costs.total);
    expect(best.bound).toBe(best.costs.total);
    expect(best.costs.causes.every(({ cost }) => cost > 0)).toBe(true);
  });

  test("has no stop and no fix of grips; what it tells is what the checker says", () => {
    const standing = check(whole).filter(isStanding);
    expect(best.findings.map(({ id, severity }) => `${id} ${severity}`)).toEqual(
      standing.map(({ id, severity }) => `${id} ${severity}`),
    );
    const ofGrips = standing.filter(
      (finding) => isBlocking(finding) && gripRules.has(finding.rule),
    );
    expect(ofGrips).toEqual([]);
  });

  test("and mended has none at all", () => {
    const { changes, left } = mended(draft, best, both);
    const mendedBoard = changes.reduce(
      (made, { lane, edits }) => editedBoard(made, lane, edits),
      whole,
    );
    expect(left).toBe(0);
    expect(check(mendedBoard).filter(isBlocking)).toEqual([]);
  });

  test("and mended changes no part that is to stay as it is", () => {
    const changed = (board: Board) =>
      new Set(mended(board, best, both).changes.map(({ lane }) => lane));
    expect(changed(draft)).toContain("upper");
    expect(changed(wishing(draft, "upper", { leaveAsIs: true }))).toEqual(new Set(["lower"]));
  });

  test("costs no more than the parts that were made by hand", () => {
    const byHand = withGripsOf(solution);
    expect(costOfGrips(draft, byHand)).toBeGreaterThanOrEqual(best.costs.total);
    const fitted = bestFor(solution);
    expect(fitted.costs.total).toBeLessThanOrEqual(costOfGrips(solution, byHand));
    expect(fitted.findings.filter(isBlocking)).toEqual([]);
  });
});

/** The grips that stand on a board. */
function withGripsOf(board: Board) {
  return (lane: LaneId, slot: SlotId) => board.lanes[lane].grips.get(slot);
}

function costOfGrips(board: Board, held: ReturnType<typeof withGripsOf>): number {
  const ground = groundOf(board, both, weightsFor("plain"));
  if ("kind" in ground) throw new Error(ground.words);
  const parts = costParts(ground.tune, held);
  return parts.reduce((sum, { steps }) => sum + steps, 0) / stepsPerSemitone;
}

describe("one lane around the other as it is", () => {
  test("changes nothing of the other, and costs no more than what was made by hand", () => {
    const result = fit(solution, { ...both, lanes: ["lower"], answers: 2 }, tools);
    if (result.kind !== "answers") throw new Error(result.words);
    const [best, next] = result.answers;
    expect(best?.parts.map(({ lane }) => lane)).toEqual(["lower"]);
    expect(best?.costs.total).toBeLessThanOrEqual(result.present?.total ?? 0);
    expect(best?.findings.filter(isBlocking)).toEqual([]);
    expect(next?.distance).toBeGreaterThanOrEqual(distanceLeast);
    expect(next?.costs.total).toBeGreaterThanOrEqual(best?.costs.total ?? 0);
  });

  test("is the same again, and made with edits that make it so", () => {
    const first = bestFor(solution, { lanes: ["upper"] });
    expect(bestFor(solution, { lanes: ["upper"] }).id).toBe(first.id);
    const whole = withAnswer(solution, first);
    for (const [slot, grip] of first.parts[0]?.grips ?? []) {
      const held = whole.lanes.upper.grips.get(slot);
      expect(held && printGrip(held)).toBe(printGrip(grip));
    }
  });
});

describe("laws of the fit, over few grips", () => {
  const small = wishing(wishing(draft, "upper", smallSets), "lower", smallSets);
  const plain = weightsFor("plain");

  test("the table of each place and link holds what its parts come to", () => {
    const ground = groundOf(small, both, plain);
    if ("kind" in ground) throw new Error(ground.words);
    const lattice = latticeOf(ground.tune);
    const choice = solve(lattice, tools)?.choice;
    if (choice === undefined) throw new Error("there is a choice");
    const held = (lane: LaneId, slot: SlotId) => {
      const place = ground.tune.placeOf.get(slot) ?? 0;
      return ground.tune.places[place]?.lists[lane]?.grips[choice[lane][place] ?? 0]?.grip;
    };
    const parts = costParts(ground.tune, held);
    expect(parts.reduce((sum, { steps }) => sum + steps, 0)).toBe(costOf(lattice, choice));
  });

  test("one more wish never lowers what no answer can be below", () => {
    const before = bestFor(small).bound;
    const more: readonly Partial<LaneWishes>[] = [
      { openStrings: false },
      { highestFret: fret(9) },
      { lowest: midiNote(55) },
      { never: [...(bestFor(small).parts[1]?.grips.values() ?? [])].slice(0, 3) },
      { liked: [...small.lanes.lower.grips.values()].slice(0, 4) },
    ];
    for (const wish of more) {
      const after = bestFor(wishing(small, "lower", { ...smallSets, ...wish })).bound;
      expect(after).toBeGreaterThanOrEqual(before);
    }
  });

  test("all weights doubled double the cost and keep the answer", () => {
    const twice = weightNames.map((name) => [name, 2 * plain[name]]);
    const doubled: Weights = Object.fromEntries(twice);
    const [one, other] = [plain, doubled].map((weights) => {
      const result = fitUnder(small, both, tools, weights);
      return result.kind === "answers" ? result.answers[0] : undefined;
    });
    expect(other?.costs.total).toBe(2 * (one?.costs.total ?? 0));
    expect(other && textsOf(other)).toEqual(one && textsOf(one));
  });

  test("lanes swapped, the cost is the same and the answer is the same one swapped", () => {
    const swapped = mirrored(small);
    const [one, other] = [bestFor(small), bestFor(swapped)];
    expect(other.costs).toEqual(one.costs);
    const back = withAnswer(swapped, other);
    const held = (lane: LaneId, slot: SlotId) =>
      back.lanes[lane === "upper" ? "lower" : "upper"].grips.get(slot);
    expect(costOfGrips(small, held)).toBe(one.costs.total);
    const others: Readonly<Record<LaneId, LaneId>> = { upper: "lower", lower: "upper" };
    const swappedBack = {
      ...other,
      parts: other.parts.map((part) => ({ ...part, lane: others[part.lane] })),
    };
    expect(new Set(textsOf(swappedBack))).toEqual(new Set(textsOf(one)));
  });

  test("another grip in a slot costs at least nothing more, and its causes say how much", () => {
    const best = bestFor(small);
    const [slot] = best.parts[1]?.grips.keys() ?? [];
    if (slot === undefined) throw new Error("there is a slot");
    const next = whyThis(small, both, best, { lane: "lower", slot, most: 3 }, tools);
    expect(next.length).toBe(3);
    for (const { more, causes, words, grip } of next) {
      const sum = causes.reduce((total, { cost }) => total + cost, 0);
      expect(sum).toBe(more);
      expect(more).toBeGreaterThanOrEqual(0);
      expect(words.startsWith(printGrip(grip))).toBe(true);
    }
    expect(next.map(({ more }) => more)).toEqual(
      next.map(({ more }) => more).sort((a, b) => a - b),
    );
  });
});
