/** From a rhythm to the strokes of an arm: which way each goes, accents, and chokes. */
import type { Step, Stroke, Strum } from "@halflap/board/playing";
import { stepLengths } from "@halflap/board/strum-text";
import { ticks } from "@halflap/theory/units";
import type { Grid, GridRhythm } from "./rhythms.ts";

/** What is put on a rhythm: nothing, weight on the back-beats, or a stop after each stroke. */
export type Dress = "plain" | "back-beat" | "chopped";

/**
 * How a rhythm is dressed to keep the feel: chopped where the lane chokes now, or where only the
 * back-beats are struck; with accents where it has accents now, or strums nothing yet. Common
 * practice, no source.
 */
export function dressFor(rhythm: GridRhythm, present: Strum | undefined): Dress {
  const { grid, struck } = withRoom(rhythm);
  const places = struck.flatMap((isStruck, index) => (isStruck ? [index] : []));
  const isOnBackBeats = places.every((index) => isBackBeat(index, grid));
  const hasRoom = places.every((index) => struck[(index + 1) % struck.length] === false);
  const chokes = present?.steps.some(({ kind }) => kind === "choke") ?? false;
  if (hasRoom && (chokes || isOnBackBeats)) return "chopped";
  const accents = present?.steps.some((step) => step.kind === "stroke" && step.weight === "accent");
  const isLifted = places.some((index) => isBackBeat(index, grid)) && !isOnBackBeats;
  return isLifted && (accents ?? true) ? "back-beat" : "plain";
}

/**
 * The strokes of a rhythm. The arm swings with the grid, down on the beat and up off it, whether
 * it strikes or not; in threes a stroke right after another goes the other way. Common practice, no
 * source.
 */
export function strokesOf(rhythm: GridRhythm, dress: Dress): Pick<Strum, "step" | "steps"> {
  const onGrid = dress === "chopped" ? withRoom(rhythm) : rhythm;
  return { step: onGrid.grid.step, steps: stepsOf(onGrid, dress) };
}

function stepsOf({ grid, struck }: GridRhythm, dress: Dress): readonly Step[] {
  const steps: Step[] = [];
  let last: Stroke["way"] | undefined;
  for (const [index, isStruck] of struck.entries()) {
    if (!isStruck) {
      const follows = dress === "chopped" && last !== undefined;
      steps.push({ kind: follows ? "choke" : "rest" });
      last = undefined;
      continue;
    }
    last = wayOf(index, grid, last);
    const isLifted = dress === "back-beat" && isBackBeat(index, grid);
    const weight = isLifted ? "accent" : "plain";
    steps.push({ kind: "stroke", way: last, weight, push: false });
  }
  const isOpen = dress === "chopped" && last !== undefined && steps[0]?.kind === "rest";
  return isOpen ? [{ kind: "choke" }, ...steps.slice(1)] : steps;
}

/** From a stroke to the next one the same way at the least, in steps: the arm there and back. */
export function armCycle(steps: readonly Step[]): number {
  const last = { down: Number.NEGATIVE_INFINITY, up: Number.NEGATIVE_INFINITY };
  let cycle = Number.POSITIVE_INFINITY;
  for (const [index, each] of [...steps, ...steps].entries()) {
    if (each.kind !== "stroke") continue;
    cycle = Math.min(cycle, index - last[each.way]);
    last[each.way] = index;
  }
  return cycle;
}

/** Strokes on whole beats on a finer grid, where there is one: a choke comes within the beat. */
function withRoom(rhythm: GridRhythm): GridRhythm {
  const { grid, struck } = rhythm;
  const parts = [2, 3].find((by) => stepLengths.some((length) => length === grid.step / by));
  if (grid.perBeat > 1 || parts === undefined) return rhythm;
  return {
    grid: { step: ticks(grid.step / parts), steps: grid.steps * parts, perBeat: parts },
    struck: struck.flatMap((isStruck) =>
      Array.from({ length: parts }, (_, part) => isStruck && part === 0),
    ),
  };
}

/** Every second beat, where a bar has an even number of them. */
function isBackBeat(index: number, { perBeat, steps }: Grid): boolean {
  return (steps / perBeat) % 2 === 0 && index % perBeat === 0 && (index / perBeat) % 2 === 1;
}

function wayOf(index: number, { perBeat }: Grid, last: Stroke["way"] | undefined): Stroke["way"] {
  if (perBeat % 3 === 0 && perBeat % 2 === 1 && last !== undefined) {
    return last === "down" ? "up" : "down";
  }
  if (perBeat % 2 === 0) return index % 2 === 0 ? "down" : "up";
  return index % perBeat === 0 ? "down" : "up";
}
