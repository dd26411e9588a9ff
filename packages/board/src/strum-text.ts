/** Strum patterns as they are typed, `D.DU.UDU`: a sign a step. SPEC.md section 6. */
import type { Reading } from "@halflap/theory/chord";
import { type Ticks, ticks, ticksPerQuarter } from "@halflap/theory/units";
import { strumStepsMax, strumTextMax } from "./limits.ts";
import type { Step, Strum } from "./playing.ts";

/** Why a text is no pattern: the 0-based column, the part not understood, and a sentence. */
export type StrumTextError = {
  readonly column: number;
  readonly read: string;
  readonly words: string;
};

/** How long a step may be: from thirty-seconds and their triplets up to a whole note. */
export const stepLengths: readonly Ticks[] = [6, 8, 12, 16, 24, 32, 48, 64, 72, 96, 144, 192].map(
  ticks,
);

const rest: Step = { kind: "rest" };
const choke: Step = { kind: "choke" };

/** The steps of a typed pattern. Spaces and bar lines are for the eye. */
export function parseStrumText(text: string): Reading<readonly Step[], StrumTextError> {
  if (text.length > strumTextMax) return wrong(strumTextMax, "", "This pattern is too long.");
  const steps: Step[] = [];
  for (const found of text.matchAll(/[>~]*[^\s|>~]|[>~]+/gu)) {
    const step = stepOf(found[0]);
    if (typeof step === "string") return wrong(found.index, found[0], step);
    if (steps.length === strumStepsMax) {
      return wrong(found.index, found[0], `A pattern has ${strumStepsMax} steps at most.`);
    }
    steps.push(step);
  }
  if (steps.length > 0) return { ok: true, value: steps };
  return wrong(0, "", "A pattern needs a step: D is a stroke down, U one up, a dot waits.");
}

/** The pattern as it is stored: a sign a step, with its accents and pushes, without spaces. */
export function printSteps(steps: readonly Step[]): string {
  return steps.map(signOf).join("");
}

/** The pattern for the eye, with a space after each beat; reading it gives the same steps. */
export function printStrumText(
  strum: Pick<Strum, "step" | "steps">,
  beat: number = ticksPerQuarter,
): string {
  const perBeat = beat / strum.step;
  const isEven = Number.isInteger(perBeat);
  return strum.steps
    .map((step, i) => (isEven && i > 0 && i % perBeat === 0 ? ` ${signOf(step)}` : signOf(step)))
    .join("");
}

/** How long each of `steps` steps is when they fill a bar; undefined where that is no step. */
export function stepFor(barLength: Ticks, steps: number): Ticks | undefined {
  return stepLengths.find((step) => step * steps === barLength);
}

/** The step of a sign with what stands before it, or what is wrong with it. */
function stepOf(read: string): Step | string {
  const sign = read.slice(-1);
  const before = read.slice(0, -1);
  if (sign === "." || sign === "x") {
    if (before === "") return sign === "." ? rest : choke;
    return "Accent and push stand before a stroke: >D, ~U.";
  }
  if (sign === ">" || sign === "~") return `After ${sign} a stroke is missing: D or U.`;
  if (!/^[DUdu]$/.test(sign)) {
    return `“${sign}” is no step: write D, U, d, u, x or a dot.`;
  }
  const isGhost = sign === "d" || sign === "u";
  if (isGhost && before !== "") return "A ghost stroke has no accent and no push.";
  if (/>.*>|~.*~/.test(before)) return "One accent and one push are enough.";
  return {
    kind: "stroke",
    way: sign.toUpperCase() === "D" ? "down" : "up",
    weight: isGhost ? "ghost" : before.includes(">") ? "accent" : "plain",
    push: before.includes("~"),
  };
}

function signOf(step: Step): string {
  if (step.kind === "rest") return ".";
  if (step.kind === "choke") return "x";
  const sign = step.way === "down" ? "D" : "U";
  if (step.weight === "ghost") return sign.toLowerCase();
  return `${step.weight === "accent" ? ">" : ""}${step.push ? "~" : ""}${sign}`;
}

function wrong(column: number, read: string, words: string): Reading<never, StrumTextError> {
  return { ok: false, error: { column, read, words } };
}
