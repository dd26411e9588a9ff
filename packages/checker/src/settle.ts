/** From hits to the list a guitarist reads: one finding for one trouble, in reading order. */
import type { Board } from "@halflap/board/board";
import { type Finding, type FindingNote, type RuleId, ruleIds, severities } from "./finding.ts";
import type { Hit } from "./hit.ts";
import type { Segment } from "./segments.ts";

/** A finding on the left says all that one on the right would say about the same notes. */
const covers: Readonly<Partial<Record<RuleId, readonly RuleId[]>>> = {
  R03: ["R02", "R04"],
  R06: ["R10", "R13"],
  R11: ["R13"],
};

/** A hit with the reason it was silenced, if it was. */
type SettledHit = Hit & { readonly silenced: string | undefined };

/** The findings of a board from the hits of its rules, in reading order. */
export function settle(
  board: Board,
  segments: readonly Segment[],
  hits: readonly Hit[],
): Finding[] {
  const place = new Map(segments.map((segment, index) => [segment, index]));
  const placeOf = (segment: Segment | undefined): number =>
    (segment && place.get(segment)) ?? segments.length;
  const settled = withoutCovered(hits).map((hit) => ({
    ...hit,
    silenced: silenceOf(board, hit.rule, hit.segments),
  }));
  return joined(settled, placeOf)
    .sort(
      (a, b) =>
        placeOf(a.segments[0]) - placeOf(b.segments[0]) ||
        severities.indexOf(a.severity) - severities.indexOf(b.severity) ||
        ruleIds.indexOf(a.rule) - ruleIds.indexOf(b.rule) ||
        a.lanes.join().localeCompare(b.lanes.join()),
    )
    .map(asFinding);
}

/** Drops every hit whose notes a weightier hit in the same slot names already. */
function withoutCovered(hits: readonly Hit[]): readonly Hit[] {
  const bySlot = grouped(hits, (hit) => hit.segments[0]);
  return hits.filter((hit) => {
    const beside = bySlot.get(hit.segments[0]) ?? [];
    return !beside.some((other) => covers[other.rule]?.includes(hit.rule) && isCovered(hit, other));
  });
}

function isCovered(hit: Hit, by: Hit): boolean {
  const isWeightier = severities.indexOf(by.severity) <= severities.indexOf(hit.severity);
  const names = (note: FindingNote) =>
    by.notes.some((other) => other.lane === note.lane && other.pitch === note.pitch);
  return isWeightier && hit.notes.every(names);
}

/** The reason that covers the first slot, when silences of the rule cover every bar. */
function silenceOf(board: Board, rule: RuleId, segments: readonly Segment[]): string | undefined {
  const ofRule = board.silences.filter((silence) => silence.rule === rule);
  const reasons = segments.map(
    ({ bar }) => ofRule.find((silence) => silence.bars.includes(bar.id))?.reason,
  );
  return reasons.every((reason) => reason !== undefined) ? reasons[0] : undefined;
}

/** Joins hits in slots that follow one another within a section when they say exactly the same. */
function joined(hits: readonly SettledHit[], placeOf: (segment: Segment) => number): SettledHit[] {
  const alike = grouped(hits, (hit) =>
    JSON.stringify([hit.rule, hit.severity, hit.lanes, hit.words, hit.silenced]),
  );
  return [...alike.values()].flatMap((group) => {
    const runs: SettledHit[] = [];
    for (const hit of group) {
      const run = runs.at(-1);
      const last = run?.segments.at(-1);
      const first = hit.segments[0];
      const follows =
        last !== undefined &&
        first !== undefined &&
        first.section === last.section &&
        placeOf(first) === placeOf(last) + 1;
      if (run !== undefined && follows) runs[runs.length - 1] = join(run, hit);
      else runs.push(hit);
    }
    return runs;
  });
}

function join(a: SettledHit, b: SettledHit): SettledHit {
  return {
    ...a,
    segments: [...a.segments, ...b.segments],
    notes: [...a.notes, ...b.notes],
    measured: Math.max(a.measured, b.measured),
  };
}

/** Items by key, groups and items in the order of their first coming. */
function grouped<K, T>(items: readonly T[], keyOf: (item: T) => K): ReadonlyMap<K, readonly T[]> {
  const groups = new Map<K, T[]>();
  for (const item of items) {
    const key = keyOf(item);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [item]);
    else group.push(item);
  }
  return groups;
}

function asFinding(hit: SettledHit): Finding {
  const slots = hit.segments.map((segment) => segment.slot.id);
  return {
    id: `${hit.rule}:${hit.lanes.join("+")}:${slots[0]}`,
    rule: hit.rule,
    severity: hit.severity,
    lanes: hit.lanes,
    bars: [...new Set(hit.segments.map((segment) => segment.bar.id))],
    slots,
    notes: hit.notes,
    measured: hit.measured,
    threshold: hit.threshold,
    words: hit.words,
    silenced: hit.silenced,
  };
}
