/** Which ways out are tried for the findings of which rule. */
import type { RuleId } from "../finding.ts";
import type { WayOutMaker } from "./candidate.ts";
import { capoCounted } from "./capo.ts";
import { fillChanges } from "./fills.ts";
import { keptGrips } from "./kept.ts";
import { loudness, noRinging, palmMutes } from "./marks.ts";
import { regrips } from "./regrip.ts";
import { layOuts } from "./rests.ts";
import { rubbingNotes } from "./rubbing-notes.ts";
import { patterns } from "./strumming.ts";
import { fewerStrings, octaves, smallerSets } from "./thinner.ts";

const register: readonly WayOutMaker[] = [regrips, fewerStrings, smallerSets, octaves, layOuts];
const tones: readonly WayOutMaker[] = [regrips, fewerStrings, octaves, layOuts];
const rhythm: readonly WayOutMaker[] = [patterns, layOuts];
const fills: readonly WayOutMaker[] = [fillChanges];

/**
 * By rule, from what is most to be hoped for. A gap that nobody fills and a form that is not
 * whole need the players themselves; what fits well needs nothing.
 */
export const makersFor: Readonly<Record<RuleId, readonly WayOutMaker[]>> = {
  R01: register,
  R02: register,
  R03: register,
  R04: tones,
  R05: tones,
  R06: tones,
  R07: [regrips],
  R08: register,
  R09: register,
  R10: [...tones, rubbingNotes, ...fills],
  R11: [...tones, rubbingNotes, ...fills],
  R12: register,
  R13: [regrips, capoCounted, fewerStrings, layOuts],
  R14: [regrips, capoCounted, layOuts],
  R15: tones,
  R16: register,
  R17: [regrips],
  R18: rhythm,
  R19: [patterns],
  R20: [patterns, layOuts],
  R21: rhythm,
  R22: rhythm,
  R23: fills,
  R24: fills,
  R25: [],
  R26: fills,
  R27: [patterns, palmMutes, regrips, smallerSets, octaves, layOuts],
  R28: [patterns, ...fills, regrips, layOuts],
  R29: [fillChanges, regrips, octaves, patterns, layOuts],
  R30: [regrips, fewerStrings, octaves, layOuts],
  R31: [regrips],
  R32: [noRinging, regrips, fewerStrings],
  R33: [loudness, layOuts],
  R34: [regrips, layOuts],
  R36: [keptGrips, regrips, layOuts],
};
