/** What the parts double: R02 to R05 in the checker's own measure. */
import { reaches } from "@halflap/checker/thresholds";
import type { GripSound } from "../grips/grip-sound.ts";
import { sharedCount, unionCount } from "../grips/pitch-set.ts";
import type { Bench, PairJudge } from "./judge.ts";

/** The judges of doubling for a kind of slot. */
export function doublingJudges(bench: Bench): readonly PairJudge[] {
  return [samePitch(bench), sameSound(bench), guideToneOctaves(bench), leadingTone(bench)].flat();
}

function samePitch({ kind, frame: { limits }, says }: Bench): readonly PairJudge[] {
  if (kind.isUnison) return [];
  const cost = (upper: GripSound, lower: GripSound) => {
    const shared = sharedCount(upper.held.set, lower.held.set);
    if (shared < limits.unisonNote) return 0;
    if (shared < limits.unisonLook) return says.note;
    const share = shared / Math.min(upper.held.distinct, lower.held.distinct);
    if (reaches(share, limits.unisonShareFix)) return says.fix;
    return reaches(share, limits.unisonShareLook) ? says.look : says.note;
  };
  return [{ rule: "R02", cause: "doubling", cost }];
}

function sameSound({ kind, frame: { limits }, says }: Bench): readonly PairJudge[] {
  if (kind.isUnison) return [];
  const cost = (upper: GripSound, lower: GripSound) => {
    const shared = sharedCount(upper.held.set, lower.held.set);
    const all = upper.held.distinct + lower.held.distinct - shared;
    return reaches(shared / all, limits.sameSound) ? says.fix : 0;
  };
  return [{ rule: "R03", cause: "doubling", cost }];
}

function guideToneOctaves(bench: Bench): readonly PairJudge[] {
  const { kind, frame, says } = bench;
  const { guides, guidePitches } = kind.question;
  if (kind.isUnison || guides.length === 0) return [];
  const { guideTonePitches, guideTonePitchesLook } = frame.limits;
  const colour = kind.isStatic ? guides.findIndex((tone) => tone.degree === "b7") : -1;
  const cost = (upper: GripSound, lower: GripSound) => {
    const both = upper.guides & lower.guides;
    if (both === 0) return 0;
    let said = 0;
    for (let tone = 0; tone < guidePitches.length; tone++) {
      const pitches = guidePitches[tone];
      if ((both & (1 << tone)) === 0 || pitches === undefined) continue;
      const count = unionCount(upper.held.set, lower.held.set, pitches);
      if (count < guideTonePitches) continue;
      const isOnTop = (upper.topGuide & lower.topGuide & (1 << tone)) !== 0;
      if (tone !== colour && (count >= guideTonePitchesLook || isOnTop)) return says.look;
      said = says.note;
    }
    return said;
  };
  return [{ rule: "R04", cause: "doubling", cost }];
}

/** Where both could step up at once the fix is charged, whichever grips come next. */
function leadingTone({ kind, frame: { limits }, says }: Bench): readonly PairJudge[] {
  if (kind.leading === undefined) return [];
  const charged = says[kind.leading];
  const cost = (upper: GripSound, lower: GripSound) => {
    const isInBoth = upper.leading > 0 && lower.leading > 0;
    return isInBoth && upper.leading + lower.leading >= limits.leadingTones ? charged : 0;
  };
  const sees = { upper: leadingIn, lower: leadingIn };
  return [{ rule: "R05", cause: "doubling", cost, sees }];
}

function leadingIn({ leading }: GripSound): number {
  return leading;
}
