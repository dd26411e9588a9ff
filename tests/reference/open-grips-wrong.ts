/**
 * The rows of @tombatossals/chords-db 0.5.1 (guitar) that are not grips of the chord they are
 * filed under: what they sound instead, and what shows it.
 */

export type WrongRow = {
  readonly symbol: string;
  /** Frets from the nut, low string first. */
  readonly grip: string;
  /** What sounds that the chord doesn't have, or else the tone it can't do without. */
  readonly foreign: string;
  readonly lacks: string;
  /** What the row is, as far as one can tell. */
  readonly reason: string;
};

/** Symbol as filed, grip, foreign notes, lacking notes, reason. */
const rows: readonly (readonly [string, string, string, string, string])[] = [
  ["C9", "0-3-2-0-3-0", "", "Bb", "Cadd9"],
  ["C9", "8-10-8-7-8-10", "", "E", "Gm/C, and no hand has five fingers for it"],
  ["C#aug", "x-4-4-4-2-2", "F# B", "F A", "C♯7sus4 without its fifth"],
  ["C#aug", "4-4-6-4-7-4", "F# G# B", "F A", "C♯7sus4"],
  ["C#7b5", "x-x-12-13-13-14", "C D F# G#", "F G B", "a semitone above C♯: D7(♭5)"],
  ["C#11", "x-4-3-0-0-4", "G", "F#", "a sharp eleventh: C♯7(♯11)"],
  ["C#11", "x-4-5-4-6-4", "G", "F#", "a sharp eleventh: C♯7(♯11)"],
  ["C#11", "9-8-9-8-8-9", "G", "F#", "a sharp eleventh: C♯9(♯11)"],
  ["C#11", "9-10-9-10-9-9", "G", "F#", "a sharp eleventh: C♯7(♯11)"],
  ["C#9#11", "x-3-2-0-0-3", "C E", "F D#", "Cmaj7, an open grip"],
  ["D7#9", "0-0-0-10-7-8", "E", "", "D7(♯9) with the open low string struck"],
  ["Dmaj9", "x-5-4-6-4-x", "D#", "E", "a flat ninth: string 2 lies a fret too low"],
  ["Dmmaj7", "x-5-3-2-2-0", "E", "", "Dm(maj9)"],
  ["Dmmaj11", "5-5-5-7-7-5", "F#", "F C#", "D with a fourth, no seventh"],
  ["Eb7b5", "x-6-7-6-8-6", "Bb", "", "both fifths"],
  ["Eb11", "0-6-6-6-8-6", "E", "", "E♭11 with the open low string struck"],
  ["Ebmaj7b5", "x-6-7-7-8-6", "Bb", "", "both fifths"],
  ["Ebm69", "11-9-10-10-9-9", "C# G#", "", "E♭m6 with ♭7 and 11"],
  ["Emadd9", "x-x-3-1-1-3", "F G# C", "E", "Fmadd9"],
  ["Emadd9", "x-8-6-5-8-x", "F G# C", "E", "Fmadd9"],
  ["Emadd9", "x-8-6-0-6-8", "F G# C", "E", "Fmadd9"],
  ["Emadd9", "x-8-10-0-9-8", "F G# C", "E", "Fmadd9"],
  ["F/A", "5-3-3-5-6-0", "E", "", "F/A with the open high string struck"],
  ["F#alt", "x-9-10-11-11-9", "C#", "", "both fifths, where its neighbours have one"],
  ["Gm11", "x-x-5-5-7-7", "F# B", "Bb F", "Gmaj7 with a fourth"],
  ["Gadd9", "x-x-3-2-1-4", "F G# C", "G B", "F with A and A♭: string 1 lies a fret above Fadd9"],
  ["Abmaj7b5", "0-0-6-7-8-8", "E A", "", "A♭maj7(♭5) with two open strings struck"],
  ["Adim", "5-3-x-4-3-x", "D B", "Eb", "A with a second and a fourth beside its ♭3"],
  ["Am/G#", "x-x-4-5-5-5", "F#", "G#", "Am/F♯, which is F♯m7(♭5)"],
  ["Bb6", "x-13-11-11-10-x", "C# F# A", "D G", "F♯m above B♭"],
  ["Baug", "x-14-13-12-12-0", "E", "", "Baug with the open high string struck"],
];

/** All of them. */
export const wrongRows: readonly WrongRow[] = rows.map(
  ([symbol, grip, foreign, lacks, reason]) => ({ symbol, grip, foreign, lacks, reason }),
);
