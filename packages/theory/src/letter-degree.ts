/** Degrees between spelled notes, counted in letters and accidentals from the major scale. */
import type { NoteName } from "./chord.ts";
import { className, noteName } from "./pitch.ts";
import { assert, pitchClass } from "./units.ts";

const letters = "CDEFGAB";
const naturals = [0, 2, 4, 5, 7, 9, 11] as const;
const octave = 12;
const steps = 7;

type Spelling = { readonly letter: number; readonly raised: number };

/** The degree 1 to 7 of a note above another, exactly as spelled: "5", "b7", "#4", "bb3". */
export function degreeBetween(root: NoteName, note: NoteName): string {
  const from = spellingOf(root);
  const to = spellingOf(note);
  const step = (to.letter - from.letter + steps) % steps;
  const distance = semitonesOf(to) - semitonesOf(from) - natural(step);
  // Two notes of at most two accidentals stand less than a tritone from the plain degree.
  const raised = pitchClass(distance + octave / 2) - octave / 2;
  return `${signs(raised)}${step + 1}`;
}

/**
 * The note at a degree 1 to 13 with any accidentals above a root; where it would need more than
 * two, its plain name.
 */
export function noteAtDegree(root: NoteName, degree: string): NoteName {
  const from = spellingOf(root);
  const step = (Number(degree.replace(/^[b#]+/, "")) - 1) % steps;
  const height = semitonesOf(from) + natural(step) + raisedBy(degree);
  const letter = (from.letter + step) % steps;
  const raised = pitchClass(height - natural(letter) + octave / 2) - octave / 2;
  return (
    noteName(letters.charAt(letter) + signs(raised)) ??
    className(pitchClass(height), raised < 0 ? "flats" : "sharps")
  );
}

/** Names of steps by pitch alone, for notes that are spelled as in another key. */
const plainSteps = "1 b2 2 b3 3 4 #4 5 b6 6 b7 7".split(" ");

/** Steps that musicians name by letter; others, as ♯3 or ♭♭7, have a plainer name. */
const lettered = /^(?:[1-7]|b[23567]|#[12456])$/;

/**
 * The step of a note above a tonic, counted from the major scale, as the note is spelled: "b7",
 * "#4", "b5"; by its pitch alone where the spelling would say ♯3 and the like.
 */
export function scaleStep(tonic: NoteName, note: NoteName): string {
  const step = degreeBetween(tonic, note);
  if (lettered.test(step)) return step;
  return (
    plainSteps[pitchClass(semitonesOf(spellingOf(note)) - semitonesOf(spellingOf(tonic)))] ?? "1"
  );
}

function spellingOf(name: NoteName): Spelling {
  return { letter: letters.indexOf(name.charAt(0)), raised: raisedBy(name) };
}

function semitonesOf({ letter, raised }: Spelling): number {
  return natural(letter) + raised;
}

function natural(step: number): number {
  const semitones = naturals[step];
  assert(semitones !== undefined, `no such step: ${step}`);
  return semitones;
}

function raisedBy(text: string): number {
  return text.split("#").length - text.split("b").length;
}

function signs(raised: number): string {
  return raised < 0 ? "b".repeat(-raised) : "#".repeat(raised);
}
