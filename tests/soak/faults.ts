/**
 * Three nodes whose lines, stores and selves fail one after the other under working pages, each
 * fault as long as trust asks for; see tests/faults.
 */
import type { KindName } from "../faults/kinds.ts";
import { type Gone, goneAfterDeath } from "../faults/presence.ts";
import { type FaultResult, runFault } from "../faults/run.ts";
import { ticksMax } from "../faults/scene.ts";
import { onStage } from "../faults/stage.ts";
import type { Portion } from "./portion.ts";

const portion = 20;
const smallPortion = 4;
const rollingPortion = 5;
/** Ticks of 100 ms from the healing until all must be equal. */
const equalTicksMax = 50;

/** What is known to need long: a node's lines give up, and the log is asked every two seconds. */
const longMs: Partial<Record<KindName, number>> = {
  "a node frozen": 30_000,
  "store paused": 20_000,
  "a black hole before the store": 15_000,
  "a black hole before a node": 15_000,
};
const usualMs = 1_000;

/** A portion of faults, of the seeds from this one on; a small one takes short ones. */
export function runFaults(seed: number, isSmall: boolean): Promise<Portion> {
  return runPortion(seed, { isSmall, count: isSmall ? smallPortion : portion });
}

/** The same of rolling restarts alone: each takes all nodes, one after the other. */
export function runRolling(seed: number, isSmall: boolean): Promise<Portion> {
  const name = "every node restarted in turn";
  return runPortion(seed, { isSmall, count: isSmall ? 1 : rollingPortion, name });
}

type Extent = { readonly isSmall: boolean; readonly count: number; readonly name?: KindName };

async function runPortion(seed: number, { isSmall, count, ...what }: Extent): Promise<Portion> {
  const steps = isSmall ? 30 : 100;
  const leastMs = (name: KindName) => (isSmall ? 0 : (longMs[name] ?? usualMs));
  const results: FaultResult[] = [];
  const faults: string[] = [];
  await onStage(async (stage) => {
    for (let one = seed; one < seed + count; one += 1) {
      const result = await runFault(stage, one, { steps, leastMs }, what);
      results.push(result);
      const late = isSmall ? [] : lateness(result);
      const found = [...result.faults, ...late];
      faults.push(...found.map((fault) => `seed ${one}, ${result.name}: ${fault}`));
    }
    if (!isSmall) faults.push(...staying(await goneAfterDeath(stage)));
  });
  return { done: count, told: told(results), faults };
}

function lateness({ ticks = ticksMax }: FaultResult): readonly string[] {
  return ticks > equalTicksMax ? [`equal only ${ticks / 10} s after the healing`] : [];
}

/** Half a minute, and what the stock client takes between two looks. */
const goneTicksMax = 330;

function staying({ toPage = ticksMax, toNewcomer = ticksMax }: Gone): readonly string[] {
  const late = Object.entries({ "a page": toPage, "a newcomer": toNewcomer }).filter(
    ([, ticks]) => ticks > goneTicksMax,
  );
  return late.map(([who, ticks]) => `${who} is shown the dead for ${ticks / 10} s`);
}

function told(results: readonly FaultResult[]): string {
  const edits = results.reduce((sum, result) => sum + result.edits, 0);
  const saved = results.reduce((sum, result) => sum + result.saved, 0);
  const slowest = Math.max(...results.map(({ ticks = ticksMax }) => ticks));
  return `${edits} edits, ${saved} times "saved", all equal within ${slowest / 10} s of healing`;
}
