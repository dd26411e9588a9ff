/** The grips of a chord that a lane's wishes let through, in whatever slot it stands. */
import { type LaneWishes, usualWishes } from "@halflap/board/wishes";
import type { ChordTone, Degree, SoundingChord } from "@halflap/theory/chord";
import { handSpanMax } from "@halflap/theory/fingers";
import { type Grip, gripNotes, gripPitches, printGrip } from "@halflap/theory/grip";
import { everydayWishes, gripsOf, reasonsAgainst, type Wishes } from "@halflap/theory/neck";
import { neckFret, type Setup, stringCount, stringNumbers } from "@halflap/theory/tuning";
import { fret, pitchClass } from "@halflap/theory/units";

/** What a lane asks of grips, and on which guitar. */
export type Asked = {
  readonly wishes: LaneWishes;
  /** With the capo as it is wished. */
  readonly setup: Setup;
  readonly hasBass: boolean;
};

/** Frets that are gone up to where no bound is wished, and beside a wished lower one. */
const usualHighestFret = 15;
const roomAboveLowest = 5;
/** Grips of more strings than a small voicing may use string 6 beside a bass player. */
const smallMax = usualWishes.stringsMax;
/** Below E3 the bass plays, a working line: whoever wishes all notes there may use string 6. */
const bassZone = 52;
/** Colours that the symbol does not name. */
const coloursMax = 1;
/** From so many strings on a grip has to make the chord. */
const spellingStrings = 3;

/** Lists kept, so that asking again costs nothing: more than the chords of a tune. */
const listsMax = 256;
const lists = new Map<string, readonly Grip[]>();

/**
 * Every small grip that makes the chord within the wishes: complete, and the same object for the
 * same question. Slots that are locked and notes kept on top are not looked at. SPEC.md W1 to W4.
 */
export function wishedGrips(chord: SoundingChord, asked: Asked): readonly Grip[] {
  const { locked, keepTop, leaveAsIs, capo, ...wishes } = asked.wishes;
  const question = JSON.stringify([chord.symbol, asked.setup, asked.hasBass, wishes]);
  const known = lists.get(question);
  if (known !== undefined) return known;
  const grips = searched(chord, asked);
  const [oldest] = lists.keys();
  if (lists.size >= listsMax && oldest !== undefined) lists.delete(oldest);
  lists.set(question, grips);
  return grips;
}

/**
 * Whether a grip, whatever chord it makes, is within the wishes. A root that may not be left out
 * is asked of grips that have the strings for it.
 */
export function meetsWishes(grip: Grip, chord: SoundingChord, asked: Asked): boolean {
  const { wishes, setup } = asked;
  const notes = gripNotes(grip, setup);
  const { min, max } = stringsOf(wishes);
  const isOnNeck = notes.length === grip.frets.filter((played) => played !== undefined).length;
  if (!isOnNeck || notes.length < min || notes.length > max) return false;
  const strings = stringsIn(grip);
  const { stringSets, lowest = 0, highest = Number.POSITIVE_INFINITY } = wishes;
  if (stringSets.length > 0 && !stringSets.some((set) => set.join("-") === strings)) return false;
  if (notes.some(({ pitch }) => pitch < lowest || pitch > highest)) return false;
  if (wishes.never.some((never) => printGrip(never) === printGrip(grip))) return false;
  const { lowestFret = 0, highestFret = Number.POSITIVE_INFINITY } = wishes;
  for (const note of notes) {
    const place = neckFret(setup, note.fret) ?? setup.capo;
    if (place <= setup.capo ? !wishes.openStrings : place < lowestFret || place > highestFret) {
      return false;
    }
  }
  const isRootFree = mayLeaveRoots(asked) || notes.length < rootStrings(chord);
  return isRootFree || notes.some(({ pitch }) => pitchClass(pitch) === chord.rootClass);
}

/** The strings that a grip uses, low string first: "4-3-2". */
export function stringsIn(grip: Grip): string {
  return stringNumbers.filter((_, index) => grip.frets[index] !== undefined).join("-");
}

/** How many strings may sound: wished sets say so themselves, unless a number is wished. */
function stringsOf({ stringSets, stringsMin, stringsMax }: LaneWishes): Wishes["sounding"] {
  const isUsual = stringsMin === usualWishes.stringsMin && stringsMax === usualWishes.stringsMax;
  return stringSets.length > 0 && isUsual
    ? { min: 1, max: stringCount }
    : { min: stringsMin, max: stringsMax };
}

/**
 * From so many strings on a root is asked for: the tones that weigh more come first, and a slash
 * bass that is none of them. T12.
 */
function rootStrings({ tones, guideTones, omittable, ...chord }: SoundingChord): number {
  const first = tones.filter(
    ({ degree }) => degree !== "1" && (holds(guideTones, degree) || !holds(omittable, degree)),
  );
  const asked = new Set([chord.rootClass, ...first.map(({ pitchClass }) => pitchClass)]);
  return Math.max(spellingStrings, asked.add(chord.bassClass).size);
}

function holds(tones: readonly ChordTone[], degree: Degree): boolean {
  return tones.some((tone) => tone.degree === degree);
}

function mayLeaveRoots({ wishes, hasBass }: Asked): boolean {
  return wishes.rootless ?? hasBass;
}

function searched(chord: SoundingChord, asked: Asked): readonly Grip[] {
  const { wishes, setup, hasBass } = asked;
  const sounding = stringsOf(wishes);
  const { lowestFret, highestFret, openStrings, stringSets } = wishes;
  const usualHighest = Math.max(usualHighestFret, (lowestFret ?? 0) + roomAboveLowest);
  const neck: Wishes = {
    ...everydayWishes(hasBass),
    rootless: mayLeaveRoots(asked),
    lowestFret,
    highestFret: highestFret ?? fret(Math.min(setup.lastFret, usualHighest)),
    openStrings,
    sounding,
  };
  const found =
    stringSets.length === 0
      ? gripsOf(chord, setup, neck).filter((grip) => !isLeftToBass(grip, asked))
      : stringSets
          .filter(({ length }) => length >= sounding.min && length <= sounding.max)
          .flatMap((strings) => gripsOf(chord, setup, onAllOf(strings, neck)));
  const within = found.filter(
    (grip) => coloursOf(grip, chord, setup) <= coloursMax && meetsWishes(grip, chord, asked),
  );
  return [...within, ...likedBeside(within, chord, asked)];
}

/** All strings of the set sound; what lies silent between them was wished so. */
function onAllOf(strings: LaneWishes["stringSets"][number], neck: Wishes): Wishes {
  const { length } = strings;
  const innerMutes = (strings[0] ?? 0) - (strings.at(-1) ?? 0) >= length;
  return { ...neck, strings, sounding: { min: length, max: length }, innerMutes };
}

/** Small voicings keep off string 6 where somebody plays bass: common practice, no source. */
function isLeftToBass({ frets }: Grip, { wishes, hasBass }: Asked): boolean {
  const sounding = frets.filter((played) => played !== undefined).length;
  const isAskedDown = wishes.highest !== undefined && wishes.highest < bassZone;
  return hasBass && !isAskedDown && frets[0] !== undefined && sounding <= smallMax;
}

function coloursOf(grip: Grip, chord: SoundingChord, setup: Setup): number {
  const own = new Set([chord.bassClass, ...chord.tones.map((tone) => tone.pitchClass)]);
  const heard = new Set(gripPitches(grip, setup).map(pitchClass));
  return [...heard].filter((each) => !own.has(each)).length;
}

/** Grips that are liked and make the chord in some way that a hand can hold. */
function likedBeside(others: readonly Grip[], chord: SoundingChord, asked: Asked): readonly Grip[] {
  const known = new Set(others.map(printGrip));
  const anyWay: Wishes = {
    ...{ sounding: { min: 1, max: stringCount }, rootless: mayLeaveRoots(asked) },
    ...{ openStrings: true, innerMutes: true, spanMax: handSpanMax },
    ...{ tensions: true, doublings: "any" },
  };
  return asked.wishes.liked.filter(
    (grip) =>
      !known.has(printGrip(grip)) &&
      meetsWishes(grip, chord, asked) &&
      reasonsAgainst(grip, chord, asked.setup, anyWay).length === 0,
  );
}
