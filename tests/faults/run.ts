/** Faults of all kinds one after the other, as a seed draws them, over one stage. */
import { seeded } from "../support/seeded.ts";
import { inflict, type KindName, kindNames } from "./kinds.ts";
import { type Mood, Scene, type SceneOptions, ticksMax } from "./scene.ts";
import type { Stage } from "./stage.ts";

export type Work = {
  /** Steps of work before, under and after a fault; 15 ms each. */
  readonly steps: number;
  /** How long a fault goes on at least, in ms. */
  readonly leastMs: (name: KindName) => number;
  readonly mood?: Mood;
};

export type FaultResult = {
  readonly name: KindName;
  readonly edits: number;
  /** Times that a node said "saved". */
  readonly saved: number;
  /** Ticks of 100 ms from the healing until all were equal; undefined when they never were. */
  readonly ticks: number | undefined;
  readonly faults: readonly string[];
};

/** The fault of a seed on a board of its own. */
export async function runFault(
  stage: Stage,
  seed: number,
  { steps, leastMs, mood }: Work,
  options: SceneOptions & { readonly name?: KindName; readonly most?: number } = {},
): Promise<FaultResult> {
  const chance = seeded(seed);
  const name = options.name ?? chance.pick(kindNames);
  const scene = await Scene.open(stage, chance, options);
  await scene.work(steps, mood);
  const lost = [...(await scene.lost())];
  const heal = await inflict(name, { stage, scene, chance });
  // What a page says again later would hide that it was lost.
  if (!name.startsWith("store")) lost.push(...(await scene.lost()));
  const [begun, least] = [performance.now(), leastMs(name)];
  do await scene.work(steps, mood);
  while (performance.now() - begun < least);
  await heal();
  lost.push(...(await scene.lost()));
  const ticks = await scene.untilEqual(options.most ?? ticksMax);
  const [edits, saved] = [scene.history.of("edit").length, scene.history.of("saved").length];
  const faults = await scene.close(options.most);
  const stuck = ticks === undefined ? ["something still waits when all holds"] : [];
  return { name, edits, saved, ticks, faults: [...new Set([...lost, ...stuck, ...faults])] };
}
