/** The check: every finding of a board, in the order in which its players would read them. */
import type { Board } from "@halflap/board/board";
import type { Finding } from "./finding.ts";
import type { Hit, SlotRule } from "./hit.ts";
import { registerOverlap } from "./rules/r01-register-overlap.ts";
import { samePitch } from "./rules/r02-same-pitch.ts";
import { sameSound } from "./rules/r03-same-sound.ts";
import { guideToneOctaves } from "./rules/r04-guide-tone-octaves.ts";
import { leadingTone } from "./rules/r05-leading-tone.ts";
import { colours } from "./rules/r06-colours.ts";
import { missingGuideTone } from "./rules/r07-missing-guide-tone.ts";
import { rub } from "./rules/r10-rub.ts";
import { foreignTones } from "./rules/r13-foreign-tones.ts";
import { settle } from "./settle.ts";
import { type Tune, tuneOf } from "./tune.ts";

/** R11 is the special message of R10 and comes from the same rule. */
const slotRules: readonly SlotRule[] = [
  samePitch,
  sameSound,
  guideToneOctaves,
  leadingTone,
  colours,
  missingGuideTone,
  rub,
  foreignTones,
];

/**
 * All findings of a board by chart position, then severity, then rule; silenced ones stay in the
 * list. A finding that says the same as one in `previous` is that very object, so that a page
 * repaints only what is new.
 */
export function check(board: Board, previous: readonly Finding[] = []): readonly Finding[] {
  const tune = tuneOf(board);
  const findings = settle(board, tune.segments, hitsOf(tune));
  const known = new Map(previous.map((finding) => [finding.id, finding]));
  return findings.map((finding) => {
    const before = known.get(finding.id);
    return before !== undefined && isSame(before, finding) ? before : finding;
  });
}

function hitsOf(tune: Tune): readonly Hit[] {
  const inSlots = tune.segments.flatMap((segment) =>
    slotRules.flatMap((rule) => rule(segment, tune)),
  );
  return [...registerOverlap(tune), ...inSlots];
}

function isSame(a: Finding, b: Finding): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
