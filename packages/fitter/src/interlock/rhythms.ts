/** Rhythms to try: beats put together in the usual ways, evenly spread ones, and answers. */
import { strumStepsMax } from "@halflap/board/limits";
import { stepLengths } from "@halflap/board/strum-text";
import { euclideanSteps } from "@halflap/theory/evenness";
import { type Ticks, ticks, ticksPerQuarter } from "@halflap/theory/units";
import type { Ground } from "./ground.ts";

/** Equal steps that fill a bar; the arm's beat is a quarter at most, or three eighths. */
export type Grid = { readonly step: Ticks; readonly steps: number; readonly perBeat: number };

/** Which steps of a grid are struck; one at least. */
export type Struckness = readonly boolean[];

/** A rhythm on its grid. */
export type GridRhythm = { readonly grid: Grid; readonly struck: Struckness };

/**
 * The grids of a section, coarsest first: beats and their halves; sixteenths where nothing swings,
 * triplets where it does; thirds and sixths of a beat in 6/8 and the like; and the grid on which
 * the lane strums now. Common practice, no source.
 */
export function gridsFor(ground: Ground): readonly Grid[] {
  const { cycle, beat, isInThrees, isSwung, present } = ground;
  const pulse = isInThrees ? beat : Math.min(beat, ticksPerQuarter);
  const divisions = isInThrees ? [1, 3, 6] : [1, 2, isSwung ? 3 : 4];
  const own = present === undefined ? 1 : pulse / present.step;
  const usual = divisions.filter((perBeat) => pulse / perBeat >= finest);
  const all = Number.isInteger(own) && own <= perBeatMax ? [...usual, own] : usual;
  return [...new Set(all)]
    .sort((a, b) => a - b)
    .map((perBeat) => ({ step: ticks(pulse / perBeat), steps: cycle / (pulse / perBeat), perBeat }))
    .filter(
      ({ step, steps }) =>
        stepLengths.includes(step) && Number.isInteger(steps) && steps <= strumStepsMax,
    );
}

/** Nobody strums finer than sixteenths unless they do already. */
const finest = ticksPerQuarter / 4;

/** Grids of more steps a beat have too many beats to put together. */
const perBeatMax = 8;

/** All rhythms to try in a section, each once, on the coarsest grid that holds it. */
export function rhythmsFor(ground: Ground): readonly GridRhythm[] {
  const known = new Set<string>();
  const rhythms: GridRhythm[] = [];
  const taken = mostlyStruck(ground);
  for (const grid of gridsFor(ground)) {
    for (const struck of [...answers(grid, taken), ...fromBeats(grid), ...evenlySpread(grid)]) {
      const places = placesOf({ grid, struck }).join(" ");
      if (places === "" || known.has(places)) continue;
      known.add(places);
      rhythms.push({ grid, struck });
    }
  }
  return rhythms;
}

/** How many different beats a rhythm is made of. */
export function differentBeats({ grid: { perBeat }, struck }: GridRhythm): number {
  const beats = Array.from({ length: struck.length / perBeat }, (_, beat) =>
    struck.slice(beat * perBeat, (beat + 1) * perBeat).join(),
  );
  return new Set(beats).size;
}

/** Where a rhythm strikes, in ticks from the start of the bar, ascending. */
export function placesOf({ grid, struck }: GridRhythm): readonly Ticks[] {
  return struck.flatMap((isStruck, index) => (isStruck ? [ticks(index * grid.step)] : []));
}

/** The places that the other lane strikes in half of the bars or more. */
export function mostlyStruck({ bars, cycle }: Ground): ReadonlySet<Ticks> {
  const counts = new Map<Ticks, number>();
  let all = 0;
  for (const { other, count } of bars) {
    all += count;
    for (const { at } of other) counts.set(at, (counts.get(at) ?? 0) + count);
  }
  const isMost = ([at, count]: readonly [Ticks, number]) => at < cycle && 2 * count >= all;
  return new Set([...counts].filter(isMost).map(([at]) => at));
}

/** Strokes where the other lane has none: everywhere, on the beats, off them. */
function answers(grid: Grid, taken: ReadonlySet<Ticks>): readonly Struckness[] {
  const free = steps(grid, (index) => !taken.has(ticks(index * grid.step)));
  const isBeat = (index: number) => index % grid.perBeat === 0;
  return [
    free,
    free.map((isFree, index) => isFree && isBeat(index)),
    free.map((isFree, index) => isFree && !isBeat(index)),
  ];
}

/** Beyond this many steps a beat, beats are not mixed: there would be too many. */
const mixedMax = 4;

/** And up to this many, single beats that differ are tried too. */
const variedMax = 3;

/** One beat all through; two in turn; one with another at the start or end; and A B A C. */
function fromBeats({ perBeat, steps: count }: Grid): readonly Struckness[] {
  const beats = count / perBeat;
  const cells = Array.from({ length: 2 ** perBeat }, (_, bits) =>
    Array.from({ length: perBeat }, (_, index) => ((bits >> (perBeat - 1 - index)) & 1) === 1),
  );
  const bar = (cellAt: (beat: number) => Struckness) =>
    Array.from({ length: beats }, (_, beat) => cellAt(beat)).flat();
  const alike = cells.map((cell) => bar(() => cell));
  if (perBeat > mixedMax || beats < 2) return alike;
  const pairs = cells.flatMap((one) => cells.map((other) => [one, other] as const));
  const inTurn = pairs.map(([one, other]) => bar((beat) => (beat % 2 === 0 ? one : other)));
  if (perBeat > variedMax) return [...alike, ...inTurn];
  const atEnds = pairs.flatMap(([one, other]) => [
    bar((beat) => (beat === beats - 1 ? other : one)),
    bar((beat) => (beat === 0 ? other : one)),
  ]);
  const inFours =
    perBeat > 2 || beats !== 4
      ? []
      : pairs.flatMap(([a, b]) => cells.map((c) => bar((beat) => [a, b, a, c][beat] ?? a)));
  return [...alike, ...inTurn, ...atEnds, ...inFours];
}

/** So many strokes spread as evenly as can be (Toussaint 2005), from each step on. */
function evenlySpread({ steps: count }: Grid): readonly Struckness[] {
  const most = Math.floor((2 * count) / 3);
  return Array.from({ length: Math.max(0, most - 1) }, (_, index) => index + 2).flatMap(
    (onsets) => {
      const spread = euclideanSteps(Math.min(onsets, count), count);
      return spread.map((_, from) => [...spread.slice(from), ...spread.slice(0, from)]);
    },
  );
}

function steps(grid: Grid, isStruck: (index: number) => boolean): Struckness {
  return Array.from({ length: grid.steps }, (_, index) => isStruck(index));
}
