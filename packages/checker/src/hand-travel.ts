/** How far the fretting hand travels from one hold to the next, and how long that takes it. */
import { type Grip, type GripNote, gripNotes } from "@halflap/theory/grip";
import { fretPosition } from "@halflap/theory/hand";
import { isOpen, type Setup } from "@halflap/theory/tuning";
import { type Millimetres, millimetres } from "@halflap/theory/units";
import { type Hold, stoppedBy } from "./holds.ts";
import { exceeds, type Limits } from "./thresholds.ts";

/** What of a hold says where the hand is. */
type TravelHold = Pick<Hold, "kind" | "notes" | "stopped" | "slides">;

/** Where the first finger may be, in millimetres from the nut. */
type Room = { readonly from: number; readonly to: number };

/**
 * The way along the neck between the lowest stopped frets of two holds, where the first finger
 * lies. undefined when the hand need not travel: an open hold bridges the way, a slide is the way,
 * the hand reaches a note of a line from where it is, or a step within a few frets is a lean.
 */
export function travelOf(
  from: TravelHold,
  to: TravelHold,
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

/** The way of the hand from one grip to another. */
export function travelBetween(
  from: Grip,
  to: Grip,
  setup: Setup,
  limits: Limits,
): Millimetres | undefined {
  return travelOf(held(from, setup), held(to, setup), setup, limits);
}

/**
 * Whether a grip moves along its strings as it is, every finger staying on its own: a slide of the
 * whole hand.
 */
export function slidesAlong(from: TravelHold, to: TravelHold, setup: Setup): boolean {
  const [one, other] = [stoppedNotes(from, setup), stoppedNotes(to, setup)];
  const isStopped = one.length === from.notes.length && other.length === to.notes.length;
  const isGrip = from.kind === "grip" && to.kind === "grip";
  if (!isGrip || !isStopped || one.length !== other.length) return false;
  const ways = one.map(({ string, fret }, index) => {
    const target = other[index];
    return target?.string === string ? target.fret - fret : undefined;
  });
  return ways.every((way) => way !== undefined && way === ways[0]);
}

/**
 * The time a move takes, in seconds: a start, and about as much again for every doubling of the
 * way. The form is Fitts' law (J. Exp. Psychol. 47, 1954) with 1 + D/W under the logarithm.
 */
export function moveSeconds(length: Millimetres, limits: Limits): number {
  return limits.moveStart + limits.movePerBit * Math.log2(1 + length / limits.moveTarget);
}

function held(grip: Grip, setup: Setup): TravelHold {
  const notes = gripNotes(grip, setup);
  return { kind: "grip", notes, stopped: stoppedBy(notes, setup), slides: false };
}

function stoppedNotes({ notes }: TravelHold, setup: Setup): readonly GripNote[] {
  return notes.filter(({ fret }) => !isOpen(setup, fret));
}

function wayBetween(lowest: number, highest: number, setup: Setup): Millimetres {
  return millimetres(fretPosition(setup, highest) - fretPosition(setup, lowest));
}

/**
 * On the lowest fret of a grip; for a note of a line, and for a grip with one stopped string,
 * anywhere from where the hand reaches it: any finger may stop it.
 */
function roomOf(hold: TravelHold, setup: Setup, limits: Limits): Room {
  const { kind, stopped } = hold;
  const to = fretPosition(setup, stopped?.lowest ?? 0);
  if (kind === "grip" && stoppedNotes(hold, setup).length !== 1) return { from: to, to };
  const reached = fretPosition(setup, stopped?.highest ?? 0) - limits.stretchLook;
  return { from: Math.min(to, reached), to };
}
