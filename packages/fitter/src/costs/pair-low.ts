/** How the parts lie down low: R08's mud and R09's cellar in the checker's own measure. */
import { type MudFrame, muddyPair } from "@halflap/checker/mud";
import { midiNote, pitchClass } from "@halflap/theory/units";
import type { GripSound } from "../grips/grip-sound.ts";
import { mudGrade, mudGrades } from "../grips/mud-reach.ts";
import { meets } from "../grips/pitch-set.ts";
import type { Bench, LoneJudge, PairJudge } from "./judge.ts";

const cause = "low and muddy";

/** The judges of the depth where both lanes sound. */
export function lowJudges(bench: Bench): readonly PairJudge[] {
  return [mud(bench), cellar(bench)].flat();
}

/** The same where one sounds alone. */
export function loneLowJudges(bench: Bench): readonly LoneJudge[] {
  const { kind, frame, says } = bench;
  const underRoot = underRootGrades(bench);
  const charged = mudGrades.map((severity) => says[severity ?? "nothing"]);
  const muddy = ({ mud }: GripSound) => charged[Math.max(mud.own, underRoot[mud.lowest] ?? 0)] ?? 0;
  const low = (sound: GripSound) => {
    if (sound.isWrongBass) return says.fix;
    return sound.low >= frame.limits.bassNotes && sound.low > 0 ? says.look : 0;
  };
  const isCellar = frame.hasBass && !kind.isUnison;
  return [
    { rule: "R08", cause, cost: muddy },
    ...(isCellar ? [{ rule: "R09", cause, cost: low } as const] : []),
  ];
}

function mud(bench: Bench): readonly PairJudge[] {
  const underRoot = underRootGrades(bench);
  const charged = mudGrades.map((severity) => bench.says[severity ?? "nothing"]);
  const cost = (upper: GripSound, lower: GripSound) => {
    const lowest = Math.min(upper.mud.lowest, lower.mud.lowest);
    const within = Math.max(upper.mud.own, lower.mud.own, underRoot[lowest] ?? 0);
    return charged[Math.max(within, across(upper, lower))] ?? 0;
  };
  return [{ rule: "R08", cause, cost }];
}

/** How grave the mud between the parts is: 0 nothing to 3 a fix. */
function across({ mud }: GripSound, lower: GripSound): number {
  if (lower.mud.lowest > lower.held.lowest) return 0;
  if (meets(mud.fix, lower.held.set)) return 3;
  if (meets(mud.look, lower.held.set)) return 2;
  return meets(mud.note, lower.held.set) ? 1 : 0;
}

const grades = new WeakMap<MudFrame, Map<number, readonly number[]>>();

/** By the lowest note of all: how muddy it is over the bass note below it, a look at most. */
function underRootGrades({ kind, frame }: Bench): readonly number[] {
  const { chord } = kind.question;
  const { bassClass } = chord;
  const root = frame.hasBass ? bassClass : chord.rootClass;
  const ofFrame = grades.get(frame) ?? new Map<number, readonly number[]>();
  grades.set(frame, ofFrame);
  const key = root * 12 + bassClass;
  const known = ofFrame.get(key) ?? gradesOver(root, bassClass, frame);
  ofFrame.set(key, known);
  return known;
}

function gradesOver(root: number, bassClass: number, frame: MudFrame): readonly number[] {
  const most = mudGrade("look");
  return Array.from({ length: 128 }, (_, lowest) => {
    const distance = pitchClass(lowest - root);
    const isAsked = pitchClass(lowest) === bassClass;
    if (isAsked || distance === 0 || distance > lowest) return 0;
    return Math.min(most, gradeOf(lowest - distance, lowest, frame));
  });
}

function gradeOf(low: number, high: number, frame: MudFrame): number {
  return mudGrade(muddyPair(midiNote(low), midiNote(high), false, frame)[0]?.severity);
}

function cellar({ kind, frame, says }: Bench): readonly PairJudge[] {
  if (!frame.hasBass || kind.isUnison) return [];
  const enough = frame.limits.bassNotes;
  const cost = (upper: GripSound, lower: GripSound) => {
    if (upper.isWrongBass || lower.isWrongBass) return says.fix;
    if (upper.low > 0 && lower.low > 0) {
      return upper.low >= enough && lower.low >= enough ? says.fix : says.look;
    }
    return upper.low + lower.low >= enough && upper.low + lower.low > 0 ? says.look : 0;
  };
  const depth = (sound: GripSound) => sound.low * 2 + Number(sound.isWrongBass);
  return [{ rule: "R09", cause, cost, sees: { upper: depth, lower: depth } }];
}
