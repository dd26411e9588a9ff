/** The seam of a slot in words, for whoever does not see it. */
import { pitchName } from "@halflap/theory/pitch";
import type { MidiNote } from "@halflap/theory/units";
import { seamWords } from "../words/seam.ts";
import { type Register, seamFigure } from "./seam-figure.ts";

/** Both registers, whether they overlap, and the notes that both sound. */
export function seamText(
  upper: readonly MidiNote[],
  lower: readonly MidiNote[],
  accidentals: "flats" | "sharps",
): string {
  const figure = seamFigure(upper, lower);
  const { registers, overlap, doubled } = figure;
  if (!registers.upper && !registers.lower) return seamWords.silent;
  const name = (pitch: MidiNote) => pitchName(pitch, accidentals);
  const ends = (register: Register) => [name(register.low), name(register.high)] as const;
  const sentences = [
    registers.upper ? seamWords.upper(...ends(registers.upper)) : seamWords.upperSilent,
    registers.lower ? seamWords.lower(...ends(registers.lower)) : seamWords.lowerSilent,
  ];
  if (overlap) sentences.push(seamWords.overlap(...ends(overlap)));
  else if (registers.upper && registers.lower) sentences.push(seamWords.flush);
  if (doubled.length > 0) sentences.push(seamWords.doubled(doubled.map(name).join(", ")));
  return sentences.join(", ");
}
