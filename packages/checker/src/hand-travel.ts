/** How far the fretting hand travels from one hold to the next, and how long that takes it. */
import { fretPosition } from "@halflap/theory/hand";
import type { Setup } from "@halflap/theory/tuning";
import { type Millimetres, millimetres } from "@halflap/theory/units";
import type { Hold } from "./holds.ts";
import { exceeds, type Limits } from "./thresholds.ts";

/** Where the first finger may be, in millimetres from the nut. */
type Room = { readonly from: number; readonly to: number };

/**
 * The way along the neck between the lowest stopped frets of two holds, where the first finger
 * lies. undefined when the hand need not travel: an open hold bridges the way, a slide is the way,
 * the hand reaches a note of a line from where it is, or a step within a few frets is a lean.
 */
export function travelOf(
  from: Hold,
  to: Hold,
  setup: Setup,
  limits: Limits,
): Millimetres | undefined {
  if (from.stopped === undefined || to.stopped === undefined || to.slides) return undefined;
  const [one, other] = [roomOf(from, setup, limits), roomOf(to, setup, limits)];
  const least = Math.max(one.from - other.to, other.from - one.to);
  const lowest = Math.min(from.stopped.lowest, to.stopped.lowest);
  const highest = Math.max(from.stopped.lowest, to.stopped.lowest);
  if (least <= 0 || exceeds(wayBetween(lowest, lowest + limits.moveFrets, setup), least)) {
    return undefined;
  }
  return wayBetween(lowest, highest, setup);
}

/**
 * The time a move takes, in seconds: a start, and about as much again for every doubling of the
 * way. The form is Fitts' law (J. Exp. Psychol. 47, 1954) with 1 + D/W under the logarithm.
 */
export function moveSeconds(length: Millimetres, limits: Limits): number {
  return limits.moveStart + limits.movePerBit * Math.log2(1 + length / limits.moveTarget);
}

function wayBetween(lowest: number, highest: number, setup: Setup): Millimetres {
  return millimetres(fretPosition(setup, highest) - fretPosition(setup, lowest));
}

/** On the lowest fret of a grip; for a note of a line anywhere from where the hand reaches it. */
function roomOf({ kind, stopped }: Hold, setup: Setup, limits: Limits): Room {
  const to = fretPosition(setup, stopped?.lowest ?? 0);
  if (kind === "grip") return { from: to, to };
  const reached = fretPosition(setup, stopped?.highest ?? 0) - limits.stretchLook;
  return { from: Math.min(to, reached), to };
}
