/** Every rule, by how far it looks. */
import type { BoardRule, PassageRule, SlotRule } from "../hit.ts";
import { registerOverlap } from "./r01-register-overlap.ts";
import { samePitch } from "./r02-same-pitch.ts";
import { sameSound } from "./r03-same-sound.ts";
import { guideToneOctaves } from "./r04-guide-tone-octaves.ts";
import { leadingTone } from "./r05-leading-tone.ts";
import { colours } from "./r06-colours.ts";
import { missingGuideTone } from "./r07-missing-guide-tone.ts";
import { mud } from "./r08-low-interval.ts";
import { bassZone } from "./r09-bass-zone.ts";
import { fillRub } from "./r10-fill-rub.ts";
import { rub } from "./r10-rub.ts";
import { roughness } from "./r12-roughness.ts";
import { foreignTones } from "./r13-foreign-tones.ts";
import { capoMismatch } from "./r14-capo-mismatch.ts";
import { parallelLanes } from "./r15-parallel-lanes.ts";
import { crossedParts } from "./r16-crossed-parts.ts";
import { jumpyLinking } from "./r17-jumpy-linking.ts";
import { sameStrum } from "./r18-same-strum.ts";
import { interlock } from "./r19-interlock.ts";
import { flam } from "./r20-flam.ts";
import { bothDense } from "./r21-both-dense.ts";
import { strumRate } from "./r22-strum-rate.ts";
import { fillCollision } from "./r23-fill-collision.ts";
import { fillOverVoice } from "./r24-fill-over-voice.ts";
import { emptyGap } from "./r25-empty-gap.ts";
import { lateFill } from "./r26-late-fill.ts";
import { vocalMasking } from "./r27-vocal-masking.ts";
import { busySinging } from "./r28-busy-singing.ts";
import { impossibleMove } from "./r29-impossible-move.ts";
import { unplayableGrip } from "./r30-unplayable-grip.ts";
import { squeak } from "./r31-squeak.ts";
import { ringingOpen } from "./r32-ringing-open.ts";
import { balance } from "./r33-balance.ts";
import { formGaps } from "./r34-form-gaps.ts";
import { staleBase } from "./r36-stale-base.ts";

/** Rules about one slot. R11 is the special message of R10 and comes from the same rule. */
export const slotRules: readonly SlotRule[] = [
  samePitch,
  sameSound,
  guideToneOctaves,
  leadingTone,
  colours,
  missingGuideTone,
  mud,
  bassZone,
  rub,
  capoMismatch,
  unplayableGrip,
];

/** Rules about a passage: runs of bars, rhythm, fills, moves. */
export const passageRules: readonly PassageRule[] = [
  registerOverlap,
  fillRub,
  foreignTones,
  parallelLanes,
  crossedParts,
  jumpyLinking,
  sameStrum,
  interlock,
  flam,
  bothDense,
  strumRate,
  fillCollision,
  fillOverVoice,
  emptyGap,
  lateFill,
  vocalMasking,
  busySinging,
  impossibleMove,
  squeak,
  ringingOpen,
  balance,
];

/** Rules about the whole board. */
export const boardRules: readonly BoardRule[] = [roughness, formGaps, staleBase];
