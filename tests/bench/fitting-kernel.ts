/**
 * One exact pass of the fitter, a sweep there and one back, beside the same in plain typed arrays
 * and beside what registers alone could do; and what the usual shortcuts would lose.
 */
import { fieldOf } from "@halflap/fitter/field";
import { type Lattice, stepsPerSemitone } from "@halflap/fitter/lattice";
import type { MinPlus } from "@halflap/fitter/min-plus";
import { plainMinPlus } from "@halflap/fitter/plain-min-plus";
import { solve } from "@halflap/fitter/solve";
import { sweep } from "@halflap/fitter/sweep";
import { registerLoop, simd } from "../support/kernel.ts";
import { tuneLattice } from "../support/tune-lattice.ts";
import type { Figure } from "./figure.ts";
import { beamCost, costInTurn } from "./fitting-shortcuts.ts";

const places = 64;
const grips = 150;
const fast = simd();
const turnInRegisters = registerLoop();

/**
 * Times are of the processor, the fastest of runs taken in turn: what else the machine does must
 * not count.
 */
export function fittingKernel(): readonly Figure[] {
  const tune = tuneLattice(1, { places, grips });
  const [plain = 0] = fastest(1, [passOver(tune, plainMinPlus)]);
  const [pass = 0, piece = 0, registersPiece = 0] = fastest(40, [
    passOver(tune, fast),
    messagesOf(fast),
    () => turnInRegisters(registerTurnsAPiece),
  ]);
  const messages = piece * pieces;
  const registers = registersPiece * pieces;
  const size = `${places} places of ${grips} grips a lane`;
  return [
    {
      name: `one exact pass there and back over ${size}`,
      unit: "ms",
      value: pass,
      budget: plain / 40,
      baseline: { name: "the same in plain typed arrays", value: plain },
    },
    {
      name: "the messages of such a pass, two products each",
      unit: "ms",
      value: messages,
      budget: registers / 0.7,
      baseline: { name: "as many sums and minima in registers only", value: registers },
    },
    {
      name: "the whole pass once more",
      unit: "ms",
      value: pass,
      budget: undefined,
      baseline: { name: "as many sums and minima in registers only", value: registers },
    },
    ...[2, 4].map((times) => longer(times)),
    ...shortcuts(tune),
  ];
}

/** Processor time of each work in ms, the least of so many rounds through all of them. */
function fastest(rounds: number, works: readonly (() => void)[]): readonly number[] {
  const least = works.map(() => Number.POSITIVE_INFINITY);
  for (let round = 0; round < rounds; round += 1) {
    for (const [index, work] of works.entries()) {
      const before = process.cpuUsage();
      work();
      const { user, system } = process.cpuUsage(before);
      least[index] = Math.min(least[index] ?? 0, (user + system) / 1000);
    }
  }
  return least;
}

function passOver(tune: Lattice, minPlus: MinPlus): () => void {
  const field = fieldOf(tune, {});
  return () => {
    if (!sweep(field, "there", minPlus) || !sweep(field, "back", minPlus)) {
      throw new Error("a tune without a never always fits");
    }
  };
}

/** Messages are measured by pieces, short enough to be left alone: as many as make a pass. */
const messagesAPiece = 6;
/** One for each way over each of the links. */
const pieces = ((places - 1) * 2) / messagesAPiece;
/** Two products a message; twelve vectors of eight numbers a turn. */
const registerTurnsAPiece = Math.round((messagesAPiece * 2 * grips ** 3) / (12 * 8));

function messagesOf(minPlus: MinPlus): () => void {
  const numbers = () => Uint16Array.from({ length: grips * grips }, (_, at) => (at * 7919) % 3000);
  const [said, upper, lower, out] = [numbers(), numbers(), numbers(), numbers()];
  const costs = Int32Array.from(said, (value) => 2 * value);
  const sides = { upper: grips, lower: grips };
  const crossed = { from: sides, to: sides, upper, lower };
  return () => {
    for (let nth = 0; nth < messagesAPiece; nth += 1) minPlus.tell(costs, said, crossed, out);
  };
}

function longer(times: number): Figure {
  const short = passOver(tuneLattice(2, { places, grips }), fast);
  const long = passOver(tuneLattice(2, { places: places * times, grips }), fast);
  const [one = 0, many = 0] = fastest(16, [short, long]);
  return {
    name: `one exact pass over ${times} times as many places`,
    unit: "ms",
    value: many,
    budget: one * times * 1.1,
    baseline: { name: `the shorter one ${times} times`, value: one * times },
  };
}

function shortcuts(tune: Lattice): readonly Figure[] {
  const best = solve(tune, { minPlus: fast });
  if (best === undefined || best.bound !== best.cost) throw new Error("a chain is solved exactly");
  const baseline = { name: "the exact answer", value: best.cost / stepsPerSemitone };
  const figure = (name: string, cost: number): Figure => ({
    ...{ name, unit: "semitones", value: cost / stepsPerSemitone, budget: undefined, baseline },
  });
  return [
    figure("cost by a beam of 100", beamCost(tune, 100)),
    figure("cost by fitting the lanes in turn", costInTurn(tune, fast)),
  ];
}
