/** What a lane strikes in a bar, note by note of a pattern or fill: one entry for each motion. */
import type { LaneId, SlotId } from "@halflap/board/board";
import { remembered } from "@halflap/board/remembered";
import type { Grip } from "@halflap/theory/grip";
import type { MidiNote, Ticks } from "@halflap/theory/units";
import type { Attack, LaneBar, Passage } from "@halflap/timeline/timeline";

/** One motion of the striking hand; the notes of a double stop are struck by one. */
export type Strike = {
  readonly kind: Attack["kind"];
  /** As written and as heard, from the start of the bar. */
  readonly at: Ticks;
  readonly sounds: Ticks;
  /** With a push the slot whose grip sounds. */
  readonly slot: SlotId;
  /** The highest note; undefined for a ghost stroke. */
  readonly top: MidiNote | undefined;
  readonly palmMuted: boolean;
  /** The grip of this bar that a stroke sounds; undefined for notes of a fill. */
  readonly grip: Grip | undefined;
};

/** A strike with the place at which the next strike or choke of its lane ends it. */
export type HeldStrike = {
  readonly strike: Strike;
  /** As heard, from the start of the passage. */
  readonly start: number;
  readonly end: number;
};

/** The strikes of a lane's bar, by their written place. */
export const strikesOf: (laneBar: LaneBar) => readonly Strike[] = remembered(made);

/** A passage, or some bars of one in a row with the place at which they end. */
type Bars = Pick<Passage, "bars" | "length">;

/** All strikes of a lane in a passage; what nothing ends lasts to the end of the passage. */
export function heldStrikes(passage: Bars, lane: LaneId): readonly HeldStrike[] {
  return heldInBoth(passage)[lane];
}

const heldInBoth = remembered((passage: Bars) => ({
  upper: heldIn(passage, "upper"),
  lower: heldIn(passage, "lower"),
}));

function heldIn(passage: Bars, lane: LaneId): readonly HeldStrike[] {
  const held: HeldStrike[] = [];
  let end: number = passage.length;
  for (const { start, lanes } of [...passage.bars].reverse()) {
    const strikes = strikesOf(lanes[lane]);
    const { chokes } = lanes[lane];
    let choke = chokes.length - 1;
    for (let index = strikes.length - 1; index >= 0; index -= 1) {
      const strike = strikes[index];
      if (strike === undefined) continue;
      for (; choke >= 0 && (chokes[choke] ?? 0) > strike.sounds; choke -= 1) {
        end = start + (chokes[choke] ?? 0);
      }
      held.push({ strike, start: start + strike.sounds, end });
      end = start + strike.sounds;
    }
    if (choke >= 0) end = start + (chokes[0] ?? 0);
  }
  return held.reverse();
}

function made(laneBar: LaneBar): readonly Strike[] {
  const strikes: Strike[] = [];
  for (const attack of laneBar.attacks) {
    const next = strikeOf(laneBar, attack);
    const last = strikes.at(-1);
    if (last?.at === next.at) strikes[strikes.length - 1] = joined(last, next);
    else strikes.push(next);
  }
  return strikes;
}

function strikeOf(laneBar: LaneBar, attack: Attack): Strike {
  const isMutedPattern = attack.kind === "stroke" && attack.strum?.palmMute === true;
  return {
    kind: attack.kind,
    at: attack.at,
    sounds: attack.sounds,
    slot: attack.slot,
    top: highest(attack.notes),
    palmMuted: laneBar.palmMute || isMutedPattern,
    grip: attack.kind === "stroke" ? gripAt(laneBar, attack.slot) : undefined,
  };
}

function joined(one: Strike, other: Strike): Strike {
  const isHigher = one.top === undefined || (other.top ?? 0) > one.top;
  return { ...one, top: isHigher ? other.top : one.top, grip: one.grip ?? other.grip };
}

/** A push over the bar line sounds a grip of the next bar, which is counted there. */
function gripAt(laneBar: LaneBar, slot: SlotId): Grip | undefined {
  return laneBar.grips[laneBar.bar.slots.findIndex(({ id }) => id === slot)];
}

function highest(notes: Attack["notes"]): MidiNote | undefined {
  let top: MidiNote | undefined;
  for (const { pitch } of notes) if (top === undefined || pitch > top) top = pitch;
  return top;
}
