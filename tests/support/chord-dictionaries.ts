/** Four published chord dictionaries behind one face, to compare our reading of symbols with. */
import {
  getNoteNamesForRootAndNoteCollectionKey,
  isValidNoteCollectionKey,
  normalizeRootNoteString,
  noteCollections,
} from "@musodojo/music-theory-data";
import { chordParserFactory } from "chord-symbol/lib/chord-symbol-esm.js";
import teoria from "teoria";
import { Chord } from "tonal";

export type ChordDictionary = {
  readonly name: string;
  /** The names of a chord's tones, ASCII, root first; undefined for an unknown symbol. */
  readonly tones: (root: string, suffix: string) => readonly string[] | undefined;
};

const parseSymbol = chordParserFactory();

/** By their names on npm. All are open (MIT, and CC0 the last) and none knows of another. */
export const chordDictionaries: readonly ChordDictionary[] = [
  {
    name: "tonal",
    tones: (root, suffix) => {
      const chord = Chord.getChord(suffix, root);
      return chord.empty ? undefined : chord.notes;
    },
  },
  {
    name: "chord-symbol",
    tones: (root, suffix) => parseSymbol(root + suffix).normalized?.notes,
  },
  { name: "teoria", tones: teoriaTones },
  { name: "@musodojo/music-theory-data", tones: musodojoTones },
];

/** It throws at what it does not know. */
function teoriaTones(root: string, suffix: string): readonly string[] | undefined {
  try {
    const names = teoria.chord(root + suffix).simple();
    return names.map((name) => ascii(name.charAt(0).toUpperCase() + name.slice(1)));
  } catch {
    return undefined;
  }
}

/** It lists chords by name and has no reader, so a symbol is known when a chord bears its name. */
function musodojoTones(root: string, suffix: string): readonly string[] | undefined {
  const name = suffix.replaceAll("b", "♭").replaceAll("#", "♯");
  const entry = Object.entries(noteCollections).find(
    ([, { category, names }]) =>
      category === "chord" && (names as readonly string[]).includes(name === "" ? "M" : name),
  );
  const key = entry?.[0] ?? "";
  const rootNote = normalizeRootNoteString(root);
  if (!isValidNoteCollectionKey(key) || rootNote === undefined) return undefined;
  return getNoteNamesForRootAndNoteCollectionKey(rootNote, key).map(ascii);
}

function ascii(name: string): string {
  return name
    .replaceAll("♭", "b")
    .replaceAll("♯", "#")
    .replaceAll("𝄫", "bb")
    .replaceAll("𝄪", "##")
    .replace(/x$/, "##");
}
