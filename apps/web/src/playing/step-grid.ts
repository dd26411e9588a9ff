/** Writing a strum pattern step by step: what a press and a key do, and a grid of another step. */
import type { Meter } from "@halflap/board/board";
import { strumStepsMax } from "@halflap/board/limits";
import { barLengthOf, beatOf } from "@halflap/board/meter";
import type { Step, Stroke, Strum } from "@halflap/board/playing";
import { type Ticks, ticks, ticksPerQuarter } from "@halflap/theory/units";

/** A pattern that is not in the library yet. */
export type StrumDraft = Omit<Strum, "id">;

/** What a key asks for on a step. */
export type StepAct =
  | { readonly kind: "walk"; readonly to: number }
  /** With a new step here, and on to the next where that is how one types. */
  | { readonly kind: "put"; readonly step: Step; readonly goesOn: boolean };

type Press = Pick<KeyboardEvent, "key" | "ctrlKey" | "metaKey" | "altKey">;
type Mark = "accent" | "ghost" | "choke" | "push";

const rest: Step = { kind: "rest" };
const choke: Step = { kind: "choke" };

/** Nothing yet: a bar of rests, eighths in most meters, sixteenths where those are counted. */
export function blankStrum(meter: Meter): StrumDraft {
  const length = barLengthOf(meter);
  const step = ticks(meter.unit === 16 ? ticksPerQuarter / 4 : ticksPerQuarter / 2);
  const steps = Array.from({ length: Math.max(1, Math.round(length / step)) }, () => rest);
  return { name: "", step, feel: "board", palmMute: false, steps };
}

/** The steps with another one at a place. */
export function withStep(steps: readonly Step[], at: number, step: Step): readonly Step[] {
  return steps.map((each, index) => (index === at ? step : each));
}

/** What a press makes of a step: nothing, down, up, and nothing again. */
export function pressed(step: Step): Step {
  if (step.kind !== "stroke") return plain("down");
  return step.way === "down" ? { ...step, way: "up" } : rest;
}

/** Whether a step carries a mark. */
export function hasMark(step: Step, mark: Mark): boolean {
  if (mark === "choke") return step.kind === "choke";
  if (step.kind !== "stroke") return false;
  return mark === "push" ? step.push : step.weight === mark;
}

/**
 * The step with a mark, or without it where it had it. A stroke is made where there was none: down
 * on a beat, up between, as the hand swings. A ghost has no pitch, so it can't come early.
 */
export function marked(step: Step, mark: Mark, isOnBeat: boolean): Step {
  if (mark === "choke") return step.kind === "choke" ? rest : choke;
  const stroke = step.kind === "stroke" ? step : plain(isOnBeat ? "down" : "up");
  if (mark === "push") {
    const weight = stroke.weight === "ghost" ? "plain" : stroke.weight;
    return { ...stroke, weight, push: !stroke.push };
  }
  const weight = stroke.weight === mark ? "plain" : mark;
  return { ...stroke, weight, push: mark === "ghost" ? false : stroke.push };
}

/** Whether a step starts a beat. */
export function isOnBeat(at: number, step: Ticks, meter: Meter): boolean {
  return (at * step) % beatOf(meter) === 0;
}

/** The act of a key on a step; undefined for other keys. */
export function stepKey(
  press: Press,
  strum: Pick<Strum, "step" | "steps">,
  at: number,
  meter: Meter,
): StepAct | undefined {
  if (press.ctrlKey || press.metaKey || press.altKey) return undefined;
  const here = strum.steps[at] ?? rest;
  const last = strum.steps.length - 1;
  const onBeat = isOnBeat(at, strum.step, meter);
  const put = (step: Step, goesOn: boolean): StepAct => ({ kind: "put", step, goesOn });
  switch (press.key) {
    case "ArrowLeft":
      return { kind: "walk", to: Math.max(0, at - 1) };
    case "ArrowRight":
      return { kind: "walk", to: Math.min(last, at + 1) };
    case "Home":
      return { kind: "walk", to: 0 };
    case "End":
      return { kind: "walk", to: last };
    case "d":
    case "D":
      return put(turned(here, "down"), true);
    case "u":
    case "U":
      return put(turned(here, "up"), true);
    case "x":
    case "X":
      return put(choke, true);
    case ".":
      return put(rest, true);
    case "g":
    case "G":
      return put(marked(here, "ghost", onBeat), false);
    case ">":
      return put(marked(here, "accent", onBeat), false);
    case "~":
      return put(marked(here, "push", onBeat), false);
    case "Delete":
    case "Backspace":
      return put(rest, false);
    default:
      return undefined;
  }
}

/**
 * The pattern on steps of another length, as long as before: each stroke goes to the nearest new
 * step, and of two that meet the first stays.
 */
export function onSteps(strum: Pick<Strum, "step" | "steps">, step: Ticks): readonly Step[] {
  const whole = strum.steps.length * strum.step;
  const count = Math.min(strumStepsMax, Math.max(1, Math.round(whole / step)));
  const steps: Step[] = Array.from({ length: count }, () => rest);
  for (const [index, each] of strum.steps.entries()) {
    const to = Math.round((index * strum.step) / step);
    if (each.kind !== "rest" && steps[to]?.kind === "rest") steps[to] = each;
  }
  return steps;
}

/** The indexes of a pattern's steps, in groups of a beat. */
export function beatGroups(
  strum: Pick<Strum, "step" | "steps">,
  meter: Meter,
): readonly (readonly number[])[] {
  const beat = beatOf(meter);
  const groups: number[][] = [];
  for (const index of strum.steps.keys()) {
    const group = Math.floor((index * strum.step) / beat);
    const into = groups.at(-1);
    const before = Math.floor(((index - 1) * strum.step) / beat);
    if (into === undefined || group !== before) groups.push([index]);
    else into.push(index);
  }
  return groups;
}

function plain(way: Stroke["way"]): Stroke {
  return { kind: "stroke", way, weight: "plain", push: false };
}

function turned(step: Step, way: Stroke["way"]): Stroke {
  return step.kind === "stroke" ? { ...step, way } : plain(way);
}
