/** What a grip rubs with in the other part: R10's and R11's own words, as sets of pitches. */
import { rubsBetween, suspendedLane } from "@halflap/checker/rub";
import { rubDistance } from "@halflap/checker/thresholds";
import type { Frame } from "@halflap/checker/tune";
import type { SoundingChord } from "@halflap/theory/chord";
import { type MidiNote, midiNote, midiNoteMax } from "@halflap/theory/units";
import { joined, type PitchSet, pitchSet } from "./pitch-set.ts";

export type RubReach = {
  /** Rubs that nobody asks for, those of a 4th with a 3rd apart. */
  readonly plain: PitchSet;
  readonly suspended: PitchSet;
  /** Semitones that the symbol asks for. */
  readonly declared: PitchSet;
};

type Rubbing = { readonly kind: keyof RubReach; readonly pitch: MidiNote };

const distances = [rubDistance.semitone, rubDistance.minorNinth].flatMap((size) => [-size, size]);

/** A way to tell what some pitches rub with over a chord. */
export function rubReachOf(
  chord: SoundingChord,
  frame: Pick<Frame, "blueNotes">,
): (pitches: readonly MidiNote[]) => RubReach {
  const known = new Map<MidiNote, RubReach>();
  const around = (pitch: MidiNote) => {
    const rubbing = known.get(pitch) ?? reachOf(rubbingWith(pitch, chord, frame));
    known.set(pitch, rubbing);
    return rubbing;
  };
  return (pitches) => {
    const all = pitches.map(around);
    return {
      plain: joined(all.map(({ plain }) => plain)),
      suspended: joined(all.map(({ suspended }) => suspended)),
      declared: joined(all.map(({ declared }) => declared)),
    };
  };
}

function reachOf(rubbing: readonly Rubbing[]): RubReach {
  const of = (kind: keyof RubReach) =>
    pitchSet(rubbing.filter((one) => one.kind === kind).map(({ pitch }) => pitch));
  return { plain: of("plain"), suspended: of("suspended"), declared: of("declared") };
}

function rubbingWith(
  upper: MidiNote,
  chord: SoundingChord,
  frame: Pick<Frame, "blueNotes">,
): readonly Rubbing[] {
  return distances.flatMap((distance): readonly Rubbing[] => {
    const value = upper + distance;
    if (value < 0 || value > midiNoteMax) return [];
    const pitch = midiNote(value);
    const [rub] = rubsBetween({ upper: [upper], lower: [pitch] }, chord, frame);
    if (rub === undefined) return [];
    if (!rub.declared) {
      return [{ kind: suspendedLane(rub, chord) === undefined ? "plain" : "suspended", pitch }];
    }
    return rub.distance === rubDistance.semitone ? [{ kind: "declared", pitch }] : [];
  });
}
