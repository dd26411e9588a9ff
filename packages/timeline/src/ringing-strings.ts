/** Six strings of which each holds one note at most, and the hand that lets them ring or not. */
import type { SlotId } from "@halflap/board/board";
import { type StringNumber, stringCount } from "@halflap/theory/tuning";
import { type Fret, type Ticks, ticks } from "@halflap/theory/units";

/** Six frets, lowest string first; undefined = silent. */
type Frets = readonly (Fret | undefined)[];

/** A note on a string; its end moves forward when something stops it. */
export type RingingNote = {
  readonly string: StringNumber;
  readonly fret: Fret;
  readonly event: { readonly start: Ticks; end: Ticks };
  /** Whether it ends when the hand leaves its grip. */
  readonly isHeldByGrip: boolean;
};

/** The strings of a lane. Times only go forward. */
export function ringingStrings(isOpen: (fret: Fret) => boolean) {
  const ringing: (RingingNote | undefined)[] = [];
  let held: Frets | undefined;
  let slot: SlotId | undefined;
  const stop = (index: number, time: number): void => {
    const note = ringing[index];
    if (note !== undefined && note.event.end > time) note.event.end = ticks(time);
    ringing[index] = undefined;
  };
  /** A fretted note rings on under the same finger; an open string until the hand touches it. */
  const ringsOn = (note: RingingNote, index: number, next: Frets | undefined): boolean => {
    const fret = next?.[index];
    if (!isOpen(note.fret)) return fret === note.fret;
    return fret === undefined ? !isMutedInside(next, index) : isOpen(fret);
  };
  return {
    /** The slot whose grip the hand lies on, and its frets. */
    heldSlot: () => slot,
    heldFrets: () => held,
    /** A new note on a string ends the one before. */
    strike(note: RingingNote): void {
      const index = stringCount - note.string;
      stop(index, note.event.start);
      ringing[index] = note;
    },
    /** The hand goes to another grip, or to none. */
    hold(next: SlotId, frets: Frets | undefined, time: number): void {
      for (const [index, note] of ringing.entries()) {
        if (note?.isHeldByGrip === true && !ringsOn(note, index, frets)) stop(index, time);
      }
      held = frets;
      slot = next;
    },
    stopAll(time: number): void {
      for (let index = 0; index < stringCount; index += 1) stop(index, time);
    },
  };
}

/** Whether the grip is silent on a string between two that it sounds. */
function isMutedInside(frets: Frets | undefined, index: number): boolean {
  const sounds = (part: Frets | undefined) => part?.some((fret) => fret !== undefined) === true;
  return sounds(frets?.slice(0, index)) && sounds(frets?.slice(index + 1));
}
