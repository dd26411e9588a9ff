/**
 * Two ways to load a server: so many edits a second whatever it answers, and as many as it answers.
 */
import { editFrames } from "./edits.ts";
import { closePairs, openPairs, type Pair, sendEdit } from "./pairs.ts";
import type { Offer, Shared, Target, Usage } from "./target.ts";

export type Loaded = {
  readonly propagationMs: readonly number[];
  /** Empty where nothing is acknowledged. */
  readonly acknowledgementMs: readonly number[];
  readonly editsPerSecond: number;
  readonly cpuPerThousand: number;
  /** Heap and buffers while all are connected, behind the last edit, less those before. */
  readonly bytesConnected: number;
};

/** Edits of one writer that are on their way at most, in the closed loop. */
const window = 20;
/** How long the last acknowledgements may take; they come at most every 100 ms. */
const acknowledgementsMs = 5_000;

/** Sends at a rate, spread over all documents, however fast the server is. */
export function openLoop(
  target: Target,
  documents: readonly Shared[],
  load: { readonly perSecond: number; readonly seconds: number },
): Promise<Loaded> {
  const total = load.perSecond * load.seconds;
  return underLoad(target, documents, Math.ceil(total / documents.length), (pairs, send) => {
    const startedAt = performance.now();
    let at = 0;
    const turn = () => {
      const due = Math.min(total, ((performance.now() - startedAt) / 1000) * load.perSecond);
      for (; at < due; at += 1) {
        const pair = pairs[at % pairs.length];
        if (pair !== undefined) send(pair);
      }
      if (at < total) setTimeout(turn, 1);
    };
    turn();
    return { total, onHeard: () => undefined };
  });
}

/** Each writer goes on as soon as its edits are heard, so many on their way at once. */
export function closedLoop(
  target: Target,
  documents: readonly Shared[],
  editsOfEach: number,
): Promise<Loaded> {
  return underLoad(target, documents, editsOfEach, (pairs, send) => {
    for (const pair of pairs) for (let i = 0; i < window; i += 1) send(pair);
    return { total: editsOfEach * pairs.length, onHeard: send };
  });
}

type Course = { readonly total: number; onHeard(pair: Pair): void };
type Send = (pair: Pair) => void;

async function underLoad(
  target: Target,
  documents: readonly Shared[],
  editsOfEach: number,
  begin: (pairs: readonly Pair[], send: Send) => Course,
): Promise<Loaded> {
  const propagationMs: number[] = [];
  const acknowledgementMs: number[] = [];
  const frames = documents.map(() => editFrames(editsOfEach));
  const before = await target.usage();
  let course: Course | undefined;
  let finish = (): void => undefined;
  const finished = new Promise<void>((resolve) => {
    finish = resolve;
  });
  const pairs = await openPairs(target.offer, documents, {
    edit(pair, ms) {
      propagationMs.push(ms);
      course?.onHeard(pair);
      if (propagationMs.length === course?.total) finish();
    },
    saved: (ms) => acknowledgementMs.push(ms),
  });
  const next = new Map(pairs.map((pair, i) => [pair, (frames[i] ?? []).values()]));
  const begun = await target.usage();
  const startedAt = performance.now();
  course = begin(pairs, (pair) => {
    const { value: frame } = next.get(pair)?.next() ?? {};
    if (frame !== undefined) sendEdit(pair, frame);
  });
  await finished;
  const seconds = (performance.now() - startedAt) / 1000;
  const ended = await target.usage();
  await acknowledged(target.offer, course.total, acknowledgementMs);
  await closePairs(pairs);
  return {
    propagationMs,
    acknowledgementMs,
    editsPerSecond: course.total / seconds,
    cpuPerThousand: perThousand(begun, ended, course.total),
    bytesConnected: ended.bytes - before.bytes,
  };
}

function perThousand(begun: Usage, ended: Usage, edits: number): number {
  return ((ended.cpuBefore - begun.cpuAfter) / edits) * 1000;
}

/** Only a server that knows its pages by a cookie acknowledges. */
async function acknowledged(
  { origin }: Offer,
  total: number,
  heard: readonly number[],
): Promise<void> {
  const until = performance.now() + acknowledgementsMs;
  while (origin !== "" && heard.length < total) {
    if (performance.now() > until) throw new Error(`only ${heard.length} edits are acknowledged`);
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}
