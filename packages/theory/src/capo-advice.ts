/** Where a capo would help: how many open strings fit, and how little is hard. SPEC.md T48. */
import { shapeChord, shapeKey } from "./capo-shape.ts";
import type { Chord, SoundingChord } from "./chord.ts";
import { pretty } from "./display.ts";
import { type Grip, gripPitches } from "./grip.ts";
import { difficultyOf } from "./hand.ts";
import { type Key, printKey } from "./key.ts";
import { fullWishes, gripsOf } from "./neck.ts";
import { isOpen, type Setup } from "./tuning.ts";
import { type Fret, fret, pitchClass } from "./units.ts";

/** A chord of the tune as it sounds, and how long it lasts, in any unit, more than 0. */
export type WeighedChord = { readonly chord: Chord; readonly length: number };

/** A chord over a capo: how it is named by the hand, and its easiest full grip there. */
export type OpenShape = {
  readonly chord: SoundingChord;
  readonly shape: SoundingChord;
  /** undefined when the first position has none. */
  readonly grip: Grip | undefined;
};

/** What a capo at one fret does for a tune. */
export type CapoAdvice = {
  readonly capo: Fret;
  /** The key the hand plays in. */
  readonly shapeKey: Key;
  readonly shapes: readonly OpenShape[];
  /** Open strings that ring, over the whole tune, a chord. */
  readonly openStrings: number;
  /** The share of the tune, 0 to 1, that is hard or has no grip in the first position. */
  readonly hard: number;
  /** The mean effort, less the open strings' worth, and a little for a high capo; best is least. */
  readonly cost: number;
  /** "Capo 2: shapes in E♭. 1.0 open strings a chord; F7 is hard." Chords are named as held. */
  readonly words: string;
};

/** The highest fret advised: above, the neck gets short. Our own. */
export const advisedCapoMax: Fret = fret(7);

/** Fingers reach so many frets above nut or capo. */
const firstPosition = 4;
/** Each fret that the capo goes up takes a tenth of a finger's worth of neck and of low notes. */
const capoFretCost = 1 / 10;
/** An open string is worth half a finger's effort, a chord without a grip costs twelve. Our own. */
const openStringWorth = 1 / 2;
const missingEffort = 12;
/**
 * A grip is hard with a barre over four strings, or from more than six fingers' effort. Our own.
 */
const hardBarre = 4;
const hardEffort = 6;

/**
 * Each capo from none to the seventh fret, the best first and at equal cost the lower; empty when
 * no chord sounds. `setup` is the guitar, its own capo left out of account. Each chord is held by
 * the grip that takes least effort of those that sound four strings or more, from the chord's bass
 * up to string 1, none muted between.
 */
export function capoAdvice(
  tune: readonly WeighedChord[],
  key: Key,
  setup: Setup,
): readonly CapoAdvice[] {
  const weights = new Map<string, { readonly chord: SoundingChord; readonly length: number }>();
  for (const { chord, length } of tune) {
    if (chord.kind === "no-chord") continue;
    const before = weights.get(chord.symbol)?.length ?? 0;
    weights.set(chord.symbol, { chord, length: before + length });
  }
  const chords = [...weights.values()];
  if (chords.length === 0) return [];
  return Array.from({ length: advisedCapoMax + 1 }, (_, place) => fret(place))
    .map((capo) => adviceFor(chords, key, { ...setup, capo, fretsFrom: "capo" }))
    .sort((one, other) => one.cost - other.cost || one.capo - other.capo);
}

function adviceFor(
  chords: readonly { readonly chord: SoundingChord; readonly length: number }[],
  key: Key,
  setup: Setup,
): CapoAdvice {
  const held = chords.map(({ chord, length }) => ({ ...heldOver(chord, key, setup), length }));
  const whole = held.reduce((sum, { length }) => sum + length, 0);
  const mean = (value: (one: (typeof held)[number]) => number) =>
    held.reduce((sum, one) => sum + value(one) * one.length, 0) / whole;
  const openStrings = mean((one) => one.open);
  const played = shapeKey(key, setup.capo);
  const hardOnes = held.filter((one) => one.isHard).map(({ shape }) => shape.symbol);
  return {
    capo: setup.capo,
    shapeKey: played,
    shapes: held.map(({ chord, shape, grip }) => ({ chord, shape, grip })),
    openStrings,
    hard: mean((one) => (one.isHard ? 1 : 0)),
    cost: mean((one) => one.effort) + setup.capo * capoFretCost,
    words: wordsFor(setup.capo, played, openStrings, hardOnes),
  };
}

type Held = OpenShape & {
  readonly open: number;
  readonly isHard: boolean;
  readonly effort: number;
};

function heldOver(chord: SoundingChord, key: Key, setup: Setup): Held {
  const moved = shapeChord(chord, key, setup.capo);
  const shape = moved.kind === "chord" ? moved : chord;
  const wishes = {
    ...fullWishes(false),
    highestFret: fret(setup.capo + firstPosition),
    sounding: { min: 4, max: 6 },
    innerMutes: false,
  };
  let best: Held = { chord, shape, grip: undefined, open: 0, isHard: true, effort: missingEffort };
  for (const grip of gripsOf(chord, setup, wishes)) {
    if (!isWholeShape(grip, chord, setup)) continue;
    const { total, barre } = difficultyOf(grip, setup);
    const open = grip.frets.filter(
      (played) => played !== undefined && isOpen(setup, played),
    ).length;
    const effort = total - open * openStringWorth;
    if (effort >= best.effort) continue;
    best = { chord, shape, grip, open, isHard: barre >= hardBarre || total > hardEffort, effort };
  }
  return best;
}

/** As open chords are strummed: the bass lowest, and the highest string among those that sound. */
function isWholeShape(grip: Grip, chord: SoundingChord, setup: Setup): boolean {
  const [lowest] = gripPitches(grip, setup);
  const hasBass = lowest !== undefined && pitchClass(lowest) === chord.bassClass;
  return hasBass && grip.frets.at(-1) !== undefined;
}

function wordsFor(capo: Fret, key: Key, openStrings: number, hard: readonly string[]): string {
  const place = capo === 0 ? "No capo" : `Capo ${capo}`;
  const list = hard
    .map((symbol) => pretty(symbol))
    .join(", ")
    .replace(/, ([^,]+)$/, " and $1");
  const verb = hard.length === 1 ? "is" : "are";
  const hardness = hard.length === 0 ? "nothing is hard" : `${list} ${verb} hard`;
  const open = `${openStrings.toFixed(1)} open strings a chord`;
  return `${place}: shapes in ${pretty(printKey(key))}. ${open}; ${hardness}.`;
}
