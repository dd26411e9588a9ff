/** R30: a grip needs too many fingers, too wide a hand, or frets that the neck does not have. */
import { type LaneId, laneIds } from "@halflap/board/board";
import type { Grip } from "@halflap/theory/grip";
import { fingersNeeded, spanOf } from "@halflap/theory/hand";
import { neckFret, type Setup } from "@halflap/theory/tuning";
import { type Hit, notesOf } from "../hit.ts";
import type { Segment } from "../segments.ts";
import { exceeds } from "../thresholds.ts";
import type { Tune } from "../tune.ts";
import { counted, sentence } from "../words.ts";

/** Each lane for itself, the gravest of what its hand can't do. */
export function unplayableGrip(segment: Segment, tune: Tune): readonly Hit[] {
  return laneIds.flatMap((lane) => {
    const grip = segment.grips[lane];
    if (grip === undefined || segment.rests[lane]) return [];
    const trouble = troubleOf(grip, tune, lane);
    if (trouble === undefined) return [];
    const notes = notesOf(segment, lane);
    return [{ rule: "R30", lanes: [lane], segments: [segment], notes, ...trouble }];
  });
}

type Trouble = Pick<Hit, "severity" | "measured" | "threshold" | "unit" | "words">;

function troubleOf(grip: Grip, tune: Tune, lane: LaneId): Trouble | undefined {
  const { limits, players } = tune;
  const setup = tune.setups[lane];
  const player = sentence(players[lane]);
  const beyond = fretsBeyond(grip, setup);
  if (beyond > 0) {
    const words = `${player}'s grip goes past the last fret of the neck.`;
    return { severity: "stop", measured: beyond, threshold: 1, unit: "strings", words };
  }
  const fingers = fingersNeeded(grip, setup);
  if (fingers > limits.fingers) {
    const words = `${player}'s grip needs ${counted(fingers)} fingers.`;
    return {
      severity: "stop",
      measured: fingers,
      threshold: limits.fingers,
      unit: "fingers",
      words,
    };
  }
  const span = spanOf(grip, setup);
  const reach = `${player}'s grip stretches ${Math.round(span)} mm`;
  if (exceeds(span, limits.stretchStop)) {
    const words = `${reach}: don't force the hand, take another one.`;
    return { severity: "stop", measured: span, threshold: limits.stretchStop, words };
  }
  if (exceeds(span, limits.stretchLook)) {
    const words = `${reach}, which is hard to hold: leave it if it hurts.`;
    return { severity: "look", measured: span, threshold: limits.stretchLook, words };
  }
  return undefined;
}

/** Strings fretted past the end of the neck; what lies behind a capo is R14's. */
function fretsBeyond(grip: Grip, setup: Setup): number {
  return grip.frets.filter(
    (fret) => fret !== undefined && fret >= setup.capo && neckFret(setup, fret) === undefined,
  ).length;
}
