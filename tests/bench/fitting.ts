/**
 * Fitting the demo tune: both lanes at once from nothing, one lane around the other, and again
 * after one slot is locked; pair costs beside asking the checker's rules pair by pair. All in
 * processor time of all threads, code still warming up; the budgets hold where people wait for it,
 * in a page's worker (fitting-in-page).
 */
import { type Board, laneIds, type SlotId } from "@halflap/board/board";
import { demoDraft } from "@halflap/board/demo";
import { editedBoard } from "@halflap/board/edited-board";
import { slotRules } from "@halflap/checker/catalogue";
import { preparedBoard } from "@halflap/checker/tune";
import type { FitRequest } from "@halflap/fitter/answer";
import { fit } from "@halflap/fitter/fit";
import { type Ground, groundOf } from "@halflap/fitter/fit-ground";
import { weightsFor } from "@halflap/fitter/leanings";
import { pairTable } from "@halflap/fitter/pair-costs";
import { boardOfCopy } from "../support/copies.ts";
import { simd } from "../support/kernel.ts";
import { type Figure, percentile } from "./figure.ts";

const minPlus = simd();
const both: FitRequest = { lanes: laneIds, leaning: "plain", answers: 5, bars: undefined };
const draft = boardOfCopy(demoDraft());
const runs = 5;
const warmUps = 3;

/** Whole tunes, one lane, and after one lock. */
export function fitting(): readonly Figure[] {
  const pairs = median(runs, (run) => {
    const ground = groundFor(unseen(draft, run));
    return () => weighed(ground);
  });
  const naive = naivePairs();
  const whole = median(runs, (run) => {
    const board = unseen(draft, 2 * runs + run);
    return () => void fit(board, both, { minPlus });
  });
  return [
    {
      ...{ name: "the demo tune in both lanes, five answers, from nothing", unit: "ms" },
      ...{ value: whole, budget: undefined },
      baseline: { name: "its pair costs by the rules, pair by pair", value: naive },
    },
    {
      ...{ name: "its pair costs from nothing", unit: "ms", value: pairs, budget: 250 },
      baseline: { name: "the same by the rules, pair by pair", value: naive },
    },
    ...everyday(whole),
  ];
}

function everyday(whole: number): readonly Figure[] {
  const baseline = {
    name: "both lanes, five answers, from nothing",
    value: whole,
    budget: undefined,
  };
  const one = { ...both, lanes: ["lower"], answers: 1 } as const;
  const single = { ...both, answers: 1 } as const;
  const slots = [...draft.lanes.lower.grips.keys()];
  const alone = median(runs, () => () => void fit(draft, one, { minPlus }));
  const again = (board: Board) => {
    fit(board, single, { minPlus });
    return median(runs, (run) => {
      const held = locked(board, slots[run * 3]);
      return () => void fit(held, single, { minPlus });
    });
  };
  const taken = withAnswer(draft, single);
  return [
    {
      ...{ name: "the lower lane around the upper, whole tune", unit: "ms" },
      ...{ value: alone, budget: undefined, baseline },
    },
    {
      ...{ name: "both lanes again after one slot is locked", unit: "ms" },
      ...{ value: again(draft), budget: undefined, baseline },
    },
    {
      ...{ name: "the same where the answer was taken before", unit: "ms" },
      ...{ value: again(taken), budget: undefined, baseline },
    },
  ];
}

/** The same music under a limit that no rule asks here: nothing that is remembered fits it. */
function unseen(board: Board, run: number): Board {
  return { ...board, limits: new Map([["maskMelody", 11 + run / 100]]) };
}

/** The board with the best answer in it. */
function withAnswer(board: Board, request: FitRequest): Board {
  const result = fit(board, request, { minPlus });
  const [best] = result.kind === "answers" ? result.answers : [];
  if (best === undefined) throw new Error("the demo has an answer");
  return best.parts.reduce((made, { lane, edits }) => editedBoard(made, lane, edits), board);
}

function locked(board: Board, slot: SlotId | undefined): Board {
  const { lower } = board.lanes;
  const wishes = { ...lower.wishes, locked: new Set(slot === undefined ? [] : [slot]) };
  return { ...board, lanes: { ...board.lanes, lower: { ...lower, wishes } } };
}

function groundFor(board: Board): Ground {
  const ground = groundOf(board, both, weightsFor("plain"));
  if ("kind" in ground) throw new Error(ground.words);
  return ground;
}

function weighed({ tune }: Ground): void {
  for (const { kinds, lists } of tune.places) pairTable(kinds, lists, tune.taste);
}

/** Every so many-th pair of a slot is asked about, and the time stands for all of them. */
const stride = 97;

/** All rules about one slot, asked about each pair of grips of each slot once. */
function naivePairs(): number {
  const { tune } = groundFor(draft);
  const prepared = preparedBoard(draft);
  const segments = new Map(
    prepared.passages.flatMap((passage) => passage.segments.map((one) => [one.slot.id, one])),
  );
  return (
    median(1, () => () => {
      for (const { slot, lists } of tune.places) {
        const segment = segments.get(slot);
        if (segment === undefined) continue;
        const [upper, lower] = [lists.upper?.grips ?? [], lists.lower?.grips ?? []];
        for (let pair = 0; pair < upper.length * lower.length; pair += stride) {
          const above = upper[Math.floor(pair / lower.length)];
          const below = lower[pair % lower.length];
          if (above === undefined || below === undefined) continue;
          const asked = {
            ...segment,
            ...{ upper: above.pitches, lower: below.pitches },
            grips: { upper: above.grip, lower: below.grip },
          };
          for (const rule of slotRules) rule(asked, prepared.tune);
        }
      }
    }) * stride
  );
}

/** The middle of some runs, in milliseconds of processor time; each is made ready untimed. */
function median(count: number, ready: (run: number) => () => void): number {
  // The engine takes its time to learn which code is worth its best.
  for (let run = 1; run <= Math.min(count, warmUps); run += 1) ready(count - 1 + run)();
  const samples = Array.from({ length: count }, (_, run) => {
    const work = ready(run);
    const before = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1000;
  });
  return percentile(samples, 0.5);
}
