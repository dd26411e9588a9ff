/** Random passages of a few bars: strums, fills, phrases, loudness and capos in both lanes. */
import type { BarAim } from "@halflap/board/board";
import { dynamics } from "@halflap/board/playing";
import { voiceTypes } from "@halflap/board/singing";
import fc from "fast-check";
import type { Passage, PassageFill, PassagePart } from "./passage.ts";

const chords = "C C7 Cmaj7 Dm7 D7 Em G7 G7b9 Bdim7 Bb7 F7/C C6 Gsus4 A5 N.C.".split(" ");
const barsMax = 4;

/** What depends on how many beats a bar has. */
type Measure = { readonly beats: 3 | 4; readonly strums: readonly string[] };

const measures: readonly Measure[] = [
  {
    beats: 4,
    strums: [
      ..."D.DU.UDU D...D... ..D..UD. .U.U.U.U D....... dUdUdUdU DDDDDDDD D..x.~U..".split(" "),
      ..."DUDUDUDUDUDUDUDU DU...........DU. >D.D.D.DU".split(" "),
    ],
  },
  { beats: 3, strums: "D..... ..D.D. DUDUDU D.UD.U .U.U.x DDD".split(" ") },
];

const grip = fc
  .array(fc.option(fc.nat(12), { nil: undefined }), { minLength: 6, maxLength: 6 })
  .filter((frets) => frets.some((fret) => fret !== undefined))
  .map((frets) => frets.map((fret) => fret ?? "x").join("-"));
const everyday = fc.constantFrom(
  ..."x-3-2-0-1-0 3-2-0-0-0-1 1-3-3-2-1-1 x-x-3-2-4-x x-x-x-x-8-10 x-x-x-9-8-8".split(" "),
);
const maybeGrip = fc.oneof(
  { weight: 3, arbitrary: grip },
  { weight: 3, arbitrary: everyday },
  { weight: 1, arbitrary: fc.constant("-") },
);

/** Notes one after another from a beat to the end of the bar or before. */
const fill = ({ beats }: Measure): fc.Arbitrary<PassageFill> =>
  fc
    .record({
      bar: fc.integer({ min: 1, max: barsMax }),
      beat: fc.integer({ min: 1, max: beats }),
      step: fc.constantFrom(0.5, 0.75, 1),
      places: fc.array(fc.tuple(fc.integer({ min: 1, max: 6 }), fc.nat(14)), { maxLength: beats }),
    })
    .map(({ bar, beat, step, places }) => {
      const notes = places
        .slice(0, Math.floor((beats - beat + 1) / step))
        .map(([string, fret], index) => `${beat + index * step} ${string}:${fret}`);
      return [bar, beat, Math.max(step, notes.length * step), notes.join(" ")];
    });

const bars = (count: number) =>
  fc.uniqueArray(fc.integer({ min: 1, max: count }), { maxLength: 2 });

function byBar<T>(value: fc.Arbitrary<T>, keys: readonly string[]) {
  return fc.dictionary(fc.constantFrom(...keys), value, { maxKeys: keys.length });
}

const part = (measure: Measure, slots: number): fc.Arbitrary<PassagePart> => {
  const numbers = Array.from({ length: barsMax }, (_, index) => `${index + 1}`);
  return fc.record({
    grips: fc
      .array(maybeGrip, { minLength: slots, maxLength: slots })
      .map((grips) => grips.join(" ")),
    strum: fc.oneof(
      fc.constantFrom(...measure.strums),
      byBar(fc.constantFrom(...measure.strums), numbers),
    ),
    feel: fc.constantFrom("board" as const, "straight" as const, "swing" as const),
    capo: fc.constantFrom(0, 0, 2, 3),
    fills: fc.array(fill(measure), { maxLength: 1 }),
    lines: fc.array(fill(measure), { maxLength: 1 }),
    palmMutes: bars(barsMax),
    letRings: bars(barsMax),
    rests: fc.oneof(fc.constant([]), bars(barsMax)),
    dynamics: byBar(fc.constantFrom(...dynamics), numbers),
  });
};

const sung = ({ beats }: Measure) =>
  fc.uniqueArray(
    fc.tuple(
      fc.integer({ min: 1, max: barsMax }),
      fc.integer({ min: 1, max: 2 }),
      fc.integer({ min: 1, max: beats - 1 }),
      fc.constantFrom("", "melody"),
    ),
    { maxLength: 3, selector: ([bar]) => bar },
  );

/** What both lanes share. */
type Tune = {
  readonly hasBass: boolean;
  readonly key: string;
  readonly tempo: number;
  readonly feel: string;
  readonly twoChords: readonly boolean[];
  readonly chords: readonly string[];
  readonly measure: Measure;
};

const aims: readonly BarAim[] = ["unison", "lock", "weave", "stop", "build"];
const whole: fc.Arbitrary<Tune> = fc.record({
  hasBass: fc.boolean(),
  key: fc.constantFrom("C", "F", "A minor"),
  tempo: fc.integer({ min: 50, max: 320 }),
  feel: fc.constantFrom("straight", "swing"),
  twoChords: fc.array(fc.boolean(), { minLength: barsMax, maxLength: barsMax }),
  chords: fc.array(fc.constantFrom(...chords), { minLength: 2 * barsMax, maxLength: 2 * barsMax }),
  measure: fc.constantFrom(...measures),
});

/** Passages of four bars in two sections; in some both lanes play the same. */
export const randomPassage: fc.Arbitrary<Passage> = fc
  .tuple(fc.boolean(), whole.chain(passageOf))
  .map(([isOne, passage]) => (isOne ? { ...passage, upper: passage.lower } : passage));

function passageOf(tune: Tune): fc.Arbitrary<Passage> {
  const { measure, hasBass, key, tempo, feel } = tune;
  const written = tune.twoChords.map((isTwo, bar) => {
    const here = tune.chords.slice(2 * bar, 2 * bar + (isTwo && measure.beats === 4 ? 2 : 1));
    return `| ${here.join(" ")} |`;
  });
  const slots = written.join(" ").replace(/[|]/g, " ").trim().split(/\s+/).length;
  const heading = `${key}, ${tempo}, ${measure.beats}/4, ${feel}${hasBass ? "" : ", no bass"}`;
  const lines = ["Chance", heading, "One", ...written.slice(0, 2), "Two", ...written.slice(2)];
  return fc.record({
    name: fc.constant("chance"),
    chart: fc.constant(lines.join("\n")),
    upper: part(measure, slots),
    lower: part(measure, slots),
    singer: fc.record({
      type: fc.constantFrom(...voiceTypes),
      lane: fc.constantFrom("upper" as const, "lower" as const),
    }),
    sung: sung(measure).map((phrases) =>
      phrases.map(([bar, beat, beats, melody]) => {
        const notes = melody === "" ? "" : `${beat} C4 ${beat + 0.5} E4`;
        return [bar, beat, beats, notes] as const;
      }),
    ),
    aims: byBar(
      fc.constantFrom(...aims).map((aim): readonly BarAim[] => [aim]),
      ["1", "3"],
    ),
    blueNotes: fc.boolean(),
    distorted: fc.boolean(),
    expected: fc.constant([]),
  });
}
