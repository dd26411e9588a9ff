/** Lattices like a tune's: grips of three voices along a line, that cost what they move. */
import type { Lattice, Link } from "@halflap/fitter/lattice";
import { stepsPerSemitone } from "@halflap/fitter/lattice";
import { type Chance, seeded } from "./seeded.ts";

type Voices = readonly [number, number, number];

/** So many places of so many grips a lane, in a chain; with `sections`, played again and round. */
export function tuneLattice(seed: number, { places, grips, sections }: TuneShape): Lattice {
  const chance = seeded(seed);
  const lanes = Array.from({ length: places }, () => ({
    upper: Array.from({ length: grips }, () => voices(chance)),
    lower: Array.from({ length: grips }, () => voices(chance)),
  }));
  const own = () => Array.from({ length: grips }, () => chance.below(8 * stepsPerSemitone));
  const link = (from: number, to: number): Link => ({
    from,
    to,
    upper: motions(lanes[from]?.upper ?? [], lanes[to]?.upper ?? []),
    lower: motions(lanes[from]?.lower ?? [], lanes[to]?.lower ?? []),
  });
  const last = places - 1;
  const starts = Array.from({ length: sections ?? 0 }, (_, section) =>
    Math.round((section * places) / (sections ?? 1)),
  );
  const again = starts.map((start, section) => link((starts[section + 1] ?? places) - 1, start));
  return {
    places: lanes.map(({ upper, lower }) => ({
      ...{ upper: grips, lower: grips },
      pairs: together(upper, lower, own(), own()),
    })),
    links: [
      ...lanes.slice(1).map((_, place) => link(place, place + 1)),
      ...again,
      ...(sections === undefined ? [] : [link(last, 0)]),
    ],
  };
}

export type TuneShape = {
  readonly places: number;
  readonly grips: number;
  readonly sections?: number;
};

function voices(chance: Chance): Voices {
  const low = chance.below(30);
  return [low, low + 3 + chance.below(4), low + 7 + chance.below(5)];
}

function motions(from: readonly Voices[], to: readonly Voices[]): Uint16Array {
  return Uint16Array.from(
    from.flatMap((a) =>
      to.map((b) => {
        const moved = Math.abs(a[0] - b[0]) + Math.abs(a[1] - b[1]) + Math.abs(a[2] - b[2]);
        return moved * stepsPerSemitone;
      }),
    ),
  );
}

/** The comfort of each, less room than eight semitones between them, and pitches that both hold. */
function together(
  upper: readonly Voices[],
  lower: readonly Voices[],
  own: readonly number[],
  other: readonly number[],
): Uint16Array {
  return Uint16Array.from(
    upper.flatMap((a, row) =>
      lower.map((b, column) => {
        const near = Math.max(0, 8 - Math.abs(a[1] - b[1])) * 1.5;
        const shared = a.filter((pitch) => b.includes(pitch)).length * 4;
        return (own[row] ?? 0) + (other[column] ?? 0) + (near + shared) * stepsPerSemitone;
      }),
    ),
  );
}
