/** How far the fretting hand travels from one hold to the next, and how long that takes it. */
import { fretPosition } from "@halflap/theory/hand";
import type { Setup } from "@halflap/theory/tuning";
import { type Fret, type Millimetres, millimetres } from "@halflap/theory/units";
import type { HandMove } from "./hand-moves.ts";
import { type Hold, union } from "./holds.ts";
import type { Limits } from "./thresholds.ts";

type Stopped = NonNullable<Hold["stopped"]>;

/** A way of the first finger along the neck. */
export type Travel = { readonly length: Millimetres; readonly from: Fret; readonly to: Fret };

/**
 * The way of the first finger; undefined when it need not travel: an open hold bridges the way, a
 * slide is the way, a neighbouring fret is a lean of the hand, and what a note of a line and the
 * hold beside it stop together may lie within one reach.
 */
export function travelOf(move: HandMove, setup: Setup, limits: Limits): Travel | undefined {
  const { from, to } = move;
  if (from.stopped === undefined || to.stopped === undefined || to.slides) return undefined;
  if (from.kind === "grip" && to.kind === "grip") {
    return travel(from.stopped.lowest, to.stopped.lowest, setup, limits);
  }
  const beyond = spanOf(union(from.stopped, to.stopped), setup) - limits.stretchLook;
  if (beyond <= 0) return undefined;
  if (from.kind === "line" && to.kind === "line") {
    return { length: millimetres(beyond), from: from.stopped.lowest, to: to.stopped.lowest };
  }
  const leaving = positionOf([...move.before].reverse(), from.stopped, setup, limits);
  const arriving = positionOf(move.after, to.stopped, setup, limits);
  return travel(leaving.lowest, arriving.lowest, setup, limits);
}

/**
 * The time a move takes, in seconds: a start, and as much again for every doubling of the way.
 * The form is Fitts' law (J. Exp. Psychol. 47, 1954) with 1 + D/W under the logarithm.
 */
export function moveSeconds(length: Millimetres, limits: Limits): number {
  return limits.moveStart + limits.movePerBit * Math.log2(1 + length / limits.moveTarget);
}

/** What is stopped at a hold and, for a line, at its neighbours as far as one hand reaches them. */
function positionOf(
  holds: readonly Hold[],
  stopped: Stopped,
  setup: Setup,
  limits: Limits,
): Stopped {
  let position = stopped;
  for (const hold of holds) {
    if (hold.kind === "grip") break;
    if (hold.stopped === undefined) continue;
    const wider = union(position, hold.stopped);
    if (spanOf(wider, setup) > limits.stretchLook) break;
    position = wider;
  }
  return position;
}

function travel(from: Fret, to: Fret, setup: Setup, limits: Limits): Travel | undefined {
  if (Math.abs(from - to) < limits.moveFrets) return undefined;
  return { length: spanOf({ lowest: from, highest: to }, setup), from, to };
}

function spanOf({ lowest, highest }: Stopped, setup: Setup): Millimetres {
  return millimetres(Math.abs(fretPosition(setup, highest) - fretPosition(setup, lowest)));
}
