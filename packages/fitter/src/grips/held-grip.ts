/** Grips as the fitter holds them: what each sounds and where its hand lies, worked out once. */
import { type Hold, stoppedBy } from "@halflap/checker/holds";
import { type Grip, type GripNote, gripNotes, printGrip } from "@halflap/theory/grip";
import { difficultyOf } from "@halflap/theory/hand";
import { isOpen, type Setup } from "@halflap/theory/tuning";
import { type MidiNote, pitchClass } from "@halflap/theory/units";
import { eighths } from "../costs/weights.ts";
import { type PitchSet, pitchSet } from "./pitch-set.ts";
import { makeShelf } from "./shelf.ts";

export type HeldGrip = {
  readonly grip: Grip;
  readonly text: string;
  /** From string 6 to 1. */
  readonly notes: readonly GripNote[];
  /** Ascending; a pitch on two strings comes twice. */
  readonly pitches: readonly MidiNote[];
  readonly set: PitchSet;
  /** How many different pitches, and how many strings. */
  readonly distinct: number;
  readonly strings: number;
  readonly lowest: number;
  readonly highest: number;
  /** The mean pitch, as a MIDI number. */
  readonly mean: number;
  /** The pitch classes, one bit each. */
  readonly classes: number;
  /** How hard it is to hold, in eighths of a finger's worth. */
  readonly effortEighths: number;
  readonly stopped: Hold["stopped"];
  /** Equal grips have equal numbers. */
  readonly id: number;
  /** Grips with one number sound the same pitches. */
  readonly voicing: number;
  /** Where the hand lies: grips with one number are alike to the hand on its way. */
  readonly position: number;
  /** The fretted shape where no string is open: those with one number slide into each other. */
  readonly shape: number | undefined;
};

/** Grips of one lane, the same object for the same grips in the same order. */
export type HeldGrips = {
  /** Equal lists have equal numbers. */
  readonly id: number;
  readonly setup: Setup;
  /** The same text for the same setup. */
  readonly setting: string;
  readonly grips: readonly HeldGrip[];
};

/** Lists to choose from, and single grips: more than two lanes of a long tune have different. */
const lists = makeShelf<HeldGrips>(256);
const singles = makeShelf<HeldGrips>(2048);
let listsMade = 0;
const settings = new WeakMap<Setup, string>();

const byArray = new WeakMap<readonly Grip[], Map<string, HeldGrips>>();

/** The grips as held, remembered. */
export function heldGrips(grips: readonly Grip[], setup: Setup): HeldGrips {
  const setting = settingOf(setup);
  const bySetup = byArray.get(grips) ?? new Map<string, HeldGrips>();
  byArray.set(grips, bySetup);
  const known = bySetup.get(setting);
  if (known !== undefined) return known;
  const key = `${setting} ${grips.map(printGrip).join(" ")}`;
  const held = (grips.length === 1 ? singles : lists)(key, () => {
    listsMade++;
    return { id: listsMade, setup, setting, grips: grips.map((grip) => heldGrip(grip, setup)) };
  });
  bySetup.set(setting, held);
  return held;
}

const numbers = new Map<string, number>();

/** Names as numbers, which are compared faster; there are as many as different grips. */
function numberOf(name: string): number {
  const known = numbers.get(name) ?? numbers.size;
  numbers.set(name, known);
  return known;
}

function settingOf(setup: Setup): string {
  const known = settings.get(setup) ?? JSON.stringify(setup);
  settings.set(setup, known);
  return known;
}

function heldGrip(grip: Grip, setup: Setup): HeldGrip {
  const notes = gripNotes(grip, setup);
  const pitches = notes.map(({ pitch }) => pitch).sort((one, other) => one - other);
  const stopped = stoppedBy(notes, setup);
  const fretted = notes.filter(({ fret }) => !isOpen(setup, fret));
  const isFretted = fretted.length === notes.length && stopped !== undefined;
  const sum = pitches.reduce((total, pitch) => total + pitch, 0);
  const alone = fretted.length === 1 ? " alone" : "";
  const lowestFret = fretted.reduce((least, { fret }) => Math.min(least, fret), Infinity);
  return {
    grip,
    text: printGrip(grip),
    notes,
    pitches,
    set: pitchSet(pitches),
    distinct: new Set(pitches).size,
    strings: pitches.length,
    lowest: pitches[0] ?? 0,
    highest: pitches.at(-1) ?? 0,
    mean: sum / Math.max(1, pitches.length),
    classes: pitches.reduce((bits, pitch) => bits | (1 << pitchClass(pitch)), 0),
    effortEighths: Math.round(difficultyOf(grip, setup).total * eighths),
    stopped,
    id: numberOf(printGrip(grip)),
    voicing: numberOf(pitches.join(" ")),
    position: numberOf(stopped === undefined ? "open" : `${stopped.lowest}${alone}`),
    shape: isFretted
      ? numberOf(notes.map(({ string, fret }) => `${string}+${fret - lowestFret}`).join(" "))
      : undefined,
  };
}
