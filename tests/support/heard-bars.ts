/**
 * When each bar leaves the loudspeaker of a page, told by the clock that all pages of a machine
 * share. A headless browser's audio clock can't be held against another's, so what is compared is
 * the page's mapping of audio time to that clock, read here anew from what the browser says.
 */
import type { Page } from "@playwright/test";

/** A bar start: which bar of the order of play, and when, in ms since 1970. */
export type HeardBar = { readonly index: number; readonly atMs: number };

/** What the page's own parts say to each other, written down from the start. */
type Notes = {
  /** How the tune lies in the player's samples, newest last. */
  readonly plans: readonly PlanNote[];
  /** When sample 0 of the player would have been heard, in ms since 1970, newest last. */
  readonly zeros: readonly number[];
  readonly sampleRate: number;
};

type PlanNote = {
  readonly bars: readonly { readonly start: number; readonly length: number }[];
  readonly stretch: { readonly first: number; readonly last: number; readonly loops: boolean };
  readonly anchor: {
    readonly sample: number;
    readonly tick: number;
    readonly samplesPerTick: number;
  };
};

/** Readings that are looked at together: one of them alone is as coarse as the audio's blocks. */
const readings = 61;

/** Writes down what conductor and player say in a page that is opened after this. */
export async function writeBarsDown(page: Page): Promise<void> {
  // A bench's runner marks what has a name with this, which a page does not have.
  await page.addInitScript("globalThis.__name ??= (made) => made;");
  await page.addInitScript(noteBars);
}

/** The bars that start in the coming `ms`, as this page will play them; none while it is silent. */
export async function comingBars(page: Page, ms: number): Promise<readonly HeardBar[]> {
  const notes = await page.evaluate((count) => {
    const { plans, zeros, sampleRate } = (globalThis as unknown as { barNotes: Notes }).barNotes;
    return { plans: plans.slice(-1), zeros: zeros.slice(-count), sampleRate };
  }, readings);
  const [plan] = notes.plans;
  const sorted = [...notes.zeros].sort((a, b) => a - b);
  const zeroMs = sorted[Math.floor(sorted.length / 2)];
  if (plan === undefined || zeroMs === undefined) return [];
  const msPerTick = (plan.anchor.samplesPerTick / notes.sampleRate) * 1000;
  const anchorMs = zeroMs + (plan.anchor.sample / notes.sampleRate) * 1000;
  const from = Date.now();
  return startsOf(plan)
    .map(({ index, tick }) => ({ index, atMs: anchorMs + (tick - plan.anchor.tick) * msPerTick }))
    .filter(({ atMs }) => atMs >= from && atMs < from + ms);
}

/**
 * How far apart two pages start the same bars in the coming seconds, in ms, the worst of them;
 * undefined when they have no bar in common.
 */
export async function apart(one: Page, other: Page): Promise<number | undefined> {
  const [mine, theirs] = await Promise.all([comingBars(one, 6_000), comingBars(other, 6_000)]);
  const differences = mine.flatMap(({ index, atMs }) =>
    theirs
      .filter((bar) => bar.index === index)
      .map((bar) => Math.abs(bar.atMs - atMs))
      .sort((a, b) => a - b)
      .slice(0, 1),
  );
  // A bar at the edge of what is looked at may be on one side of it only.
  const common = differences.filter((difference) => difference < 1_000);
  const isSame = common.length >= Math.min(mine.length, theirs.length) - 1 && common.length > 0;
  return isSame ? Math.max(...common) : undefined;
}

/** The bars of a plan, round after round where it goes round. */
function startsOf({ bars, stretch }: PlanNote): readonly { index: number; tick: number }[] {
  const { first, last, loops } = stretch;
  const [start, end] = [bars[first], bars[last]];
  if (start === undefined || end === undefined) return [];
  const round = end.start + end.length - start.start;
  return Array.from({ length: loops ? roundsMax : 1 }, (_, count) =>
    bars
      .slice(first, last + 1)
      .map((bar, offset) => ({ index: first + offset, tick: bar.start + count * round })),
  ).flat();
}

/** More than a test lasts. */
const roundsMax = 200;

/** Runs in the page, before anything of it. */
function noteBars(): void {
  const notes = { plans: [] as unknown[], zeros: [] as number[], sampleRate: 0 };
  Object.assign(globalThis, {
    barNotes: notes,
    Worker: class extends Worker {
      constructor(address: string | URL, options?: WorkerOptions) {
        super(address, options);
        this.addEventListener("message", ({ data }: MessageEvent) => {
          if (data?.what?.kind === "plan") notes.plans.push(data.what.plan);
        });
      }
    },
    AudioWorkletNode: class extends AudioWorkletNode {
      constructor(context: AudioContext, processor: string, options?: AudioWorkletNodeOptions) {
        super(context, processor, options);
        notes.sampleRate = context.sampleRate;
        this.port.addEventListener("message", ({ data }: MessageEvent) => {
          const { contextTime = 0, performanceTime = 0 } = context.getOutputTimestamp();
          if (contextTime === 0 || performanceTime === 0) return;
          const origin = data.time - data.sample / context.sampleRate;
          const heardMs = performanceTime + (origin - contextTime) * 1000;
          notes.zeros.push(performance.timeOrigin + heardMs);
        });
      }
    },
  });
}
