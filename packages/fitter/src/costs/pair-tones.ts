/** Which tones the parts make together: colours, rubs and what nobody plays. R06, R07, R10, R11. */
import { guideTonesOf, isThird } from "@halflap/checker/guide-tones";
import { bareWeight } from "@halflap/checker/oddness";
import { pitchClass } from "@halflap/theory/units";
import type { GripSound } from "../grips/grip-sound.ts";
import { meets } from "../grips/pitch-set.ts";
import type { Bench, LoneJudge, PairJudge } from "./judge.ts";
import { eighths, stepsFor } from "./weights.ts";

/** The judges of tones for a kind of slot in which both sound. */
export function toneJudges(bench: Bench): readonly PairJudge[] {
  const judges = [colours, rubs, missing, otherTriad, slashBass, thin, bare];
  return judges.flatMap((judgesOf) => judgesOf(bench));
}

/** The judges of tones where one lane sounds alone. */
export function loneToneJudges(bench: Bench): readonly LoneJudge[] {
  const says = bench.kind.isAlone ? missingCost(bench) : undefined;
  const over = bench.kind.isAlone ? slashBassCost(bench) : undefined;
  const other = otherTriadCost(bench);
  const weight = stepsFor(bench.weights.thin, eighths);
  return [
    ...(says === undefined ? [] : [lone("R07", ({ held }: GripSound) => says(held.classes))]),
    ...(over === undefined ? [] : [lone(undefined, ({ held }: GripSound) => over(held.lowest))]),
    lone(undefined, ({ held }: GripSound) => Math.max(0, enoughAlone - held.strings) * weight),
    { ...lone(undefined, ({ isBare }) => (isBare ? bareCost(bench) : 0)), cause: "colour" },
    { ...lone(undefined, ({ held }) => other?.(held.classes) ?? 0), cause: "colour" },
  ];
}

/** So many strings sound full: alone, and between two. Ours. */
const enoughAlone = 3;
const enoughTogether = 5;

function lone(rule: LoneJudge["rule"], cost: LoneJudge["cost"]): LoneJudge {
  return { rule, cause: "missing note", cost };
}

function colours({ kind, says }: Bench): readonly PairJudge[] {
  const { allowed } = kind.question;
  const cost = (upper: GripSound, lower: GripSound) => {
    if ((upper.contradicted & lower.colours) !== 0) return says.fix;
    return (upper.colours & lower.colours & allowed) === 0 ? 0 : says.look;
  };
  const upper = (sound: GripSound) => sound.contradicted * allClasses + sound.colours;
  return [{ rule: "R06", cause: "colour", cost, sees: { upper, lower: coloursIn } }];
}

/** R10 and its special message R11, each silenced by its own name. */
function rubs({ kind, says }: Bench): readonly PairJudge[] {
  if (kind.isPassing) return [];
  const plain = (upper: GripSound, lower: GripSound) => {
    if (meets(upper.rubs.plain, lower.held.set)) return says.fix;
    if (!meets(upper.rubs.declared, lower.held.set)) return 0;
    return meets(upper.rubs.suspended, lower.held.set) ? 0 : says.note;
  };
  const suspended = (upper: GripSound, lower: GripSound) =>
    meets(upper.rubs.suspended, lower.held.set) ? says.fix : 0;
  return [
    { rule: "R10", cause: "rub", cost: plain },
    { rule: "R11", cause: "rub", cost: suspended },
  ];
}

function missing(bench: Bench): readonly PairJudge[] {
  const says = missingCost(bench);
  if (says === undefined) return [];
  const cost = (upper: GripSound, lower: GripSound) =>
    says(upper.held.classes | lower.held.classes);
  const sees = { upper: classesIn, lower: classesIn };
  return [{ rule: "R07", cause: "missing note", cost, sees }];
}

/** What it costs that only these classes sound; undefined where the rule has nothing to ask. */
function missingCost({ kind, says }: Bench): ((classes: number) => number) | undefined {
  const { chord } = kind.question;
  if (chord.family === "suspended" || chord.family === "power") return undefined;
  const guides = guideTonesOf(chord);
  const bit = (tone: { readonly pitchClass: number }) => 1 << tone.pitchClass;
  const all = guides.reduce((bits, tone) => bits | bit(tone), 0);
  const thirds = guides.filter(isThird).reduce((bits, tone) => bits | bit(tone), 0);
  const other = kind.isSecondary ? says.fix : says.look;
  return (classes) => {
    const left = all & ~(classes | kind.helped);
    if (left === 0) return 0;
    return (left & thirds) === 0 ? other : says.fix;
  };
}

function otherTriad(bench: Bench): readonly PairJudge[] {
  const says = otherTriadCost(bench);
  if (says === undefined) return [];
  const cost = (upper: GripSound, lower: GripSound) =>
    says(upper.held.classes | lower.held.classes);
  return [{ rule: undefined, cause: "colour", cost, sees: { upper: classesIn, lower: classesIn } }];
}

/**
 * What it costs that only these classes sound: a triad with a 13 and no fifth is another triad,
 * G with E and no D is Em. undefined where the chord is none, or names that tone as its bass.
 */
function otherTriadCost({ kind, weights }: Bench): ((classes: number) => number) | undefined {
  const { tones, tensions, bassClass } = kind.question.chord;
  const colour = tensions.find(({ degree }) => degree === "13")?.pitchClass;
  const fifth = tones.find(({ degree }) => degree === "5")?.pitchClass;
  const isTriad = tones.length === triadTones && fifth !== undefined;
  if (colour === undefined || !isTriad || colour === bassClass) return undefined;
  const weight = stepsFor(weights.otherTriad, eighths);
  return (classes) => {
    const hasFifth = ((classes | kind.helped) & (1 << fifth)) !== 0;
    return hasFifth || (classes & (1 << colour)) === 0 ? 0 : weight;
  };
}

const triadTones = 3;

function slashBass(bench: Bench): readonly PairJudge[] {
  const over = slashBassCost(bench);
  if (over === undefined) return [];
  const cost = (upper: GripSound, lower: GripSound) =>
    over(Math.min(upper.held.lowest, lower.held.lowest));
  const sees = { upper: lowestIn, lower: lowestIn };
  return [{ rule: undefined, cause: "missing note", cost, sees }];
}

/** What it costs that this note lies lowest; undefined where no slash bass is left to guitars. */
function slashBassCost({ kind, frame, weights }: Bench): ((lowest: number) => number) | undefined {
  const { bassClass, rootClass } = kind.question.chord;
  if (frame.hasBass || bassClass === rootClass) return undefined;
  const weight = stepsFor(weights.slashBass, eighths);
  return (lowest) => (pitchClass(lowest) === bassClass ? 0 : weight);
}

/** A bare pair is what is wanted beside a part that tells the chord, and odd beside another. */
function bare(bench: Bench): readonly PairJudge[] {
  const weight = bareCost(bench);
  const cost = (upper: GripSound, lower: GripSound) => {
    const above = upper.isBare && !lower.tellsAll ? weight : 0;
    return lower.isBare && !upper.tellsAll ? above + weight : above;
  };
  const tells = (sound: GripSound) => Number(sound.isBare) * 2 + Number(sound.tellsAll);
  return [{ rule: undefined, cause: "colour", cost, sees: { upper: tells, lower: tells } }];
}

function bareCost({ weights }: Bench): number {
  return stepsFor(weights.odd, bareWeight * eighths);
}

function thin({ weights }: Bench): readonly PairJudge[] {
  const weight = stepsFor(weights.thin, eighths);
  const cost = (upper: GripSound, lower: GripSound) =>
    Math.max(0, enoughTogether - upper.held.strings - lower.held.strings) * weight;
  const sees = { upper: stringsIn, lower: stringsIn };
  return [{ rule: undefined, cause: "missing note", cost, sees }];
}

/** One more than the bits of all pitch classes. */
const allClasses = 2 ** 12;

function coloursIn({ colours }: GripSound): number {
  return colours;
}

function classesIn({ held }: GripSound): number {
  return held.classes;
}

function lowestIn({ held }: GripSound): number {
  return held.lowest;
}

function stringsIn({ held }: GripSound): number {
  return held.strings;
}
