/** From hits to the list a guitarist reads: one finding for one trouble, in reading order. */
import type { BarId, Board } from "@halflap/board/board";
import { remembered } from "@halflap/board/remembered";
import { ticks } from "@halflap/theory/units";
import type { Finding, FindingNote, FindingSpan, RuleId } from "./finding.ts";
import type { Hit } from "./hit.ts";
import { usualUnits } from "./measure-units.ts";
import { gravity, inReadingOrder, type PlacedFinding } from "./reading-order.ts";
import type { Segment } from "./segments.ts";
import type { CheckedPassage } from "./tune.ts";

/** A finding on the left says all that one on the right would say about the same notes. */
const covers: Readonly<Partial<Record<RuleId, readonly RuleId[]>>> = {
  R03: ["R02", "R04"],
  R06: ["R10", "R13"],
  R11: ["R13"],
  R14: ["R13"],
  R29: ["R26"],
  R36: ["R13"],
};

/** A hit with the reason it was silenced, if it was; else it is the hit itself. */
type SettledHit = Hit & { readonly silenced?: string };

/** The findings of one passage from the hits of its rules, in reading order. */
export function settle(
  silences: Board["silences"],
  passage: CheckedPassage,
  hits: readonly Hit[],
): readonly Finding[] {
  const places = new Map(passage.segments.map((segment, index) => [segment, index]));
  const placeOf: PlaceOf = (segment) => (segment && places.get(segment)) ?? places.size;
  const silenceOf = silencesOf(silences);
  const settled = withoutCovered(hits).map((hit): SettledHit => {
    const silenced = silenceOf(hit.rule, heardIn(hit));
    return silenced === undefined ? hit : { ...hit, silenced };
  });
  return listed(
    joined(settled, placeOf).map((hit) => ({
      finding: asFinding(hit),
      place: placeOf(heardIn(hit)[0]),
    })),
  );
}

type PlaceOf = (segment: Segment | undefined) => number;
/** Each finding once, the gravest of those with one id, in reading order. */
function listed(placed: readonly PlacedFinding[]): readonly Finding[] {
  const byId = new Map<string, PlacedFinding>();
  for (const each of placed) {
    const known = byId.get(each.finding.id)?.finding;
    if (known === undefined || gravity(known) > gravity(each.finding)) {
      byId.set(each.finding.id, each);
    }
  }
  return inReadingOrder([...byId.values()]);
}

/** Drops every hit whose notes a weightier hit about the same slots names already. */
function withoutCovered(hits: readonly Hit[]): readonly Hit[] {
  const coverers = new Map<Segment, Hit[]>();
  for (const hit of hits) {
    if (covers[hit.rule] === undefined) continue;
    for (const segment of hit.segments) {
      const here = coverers.get(segment);
      if (here === undefined) coverers.set(segment, [hit]);
      else here.push(hit);
    }
  }
  return hits.filter((hit) => {
    const first = hit.segments[0];
    const beside = (first && coverers.get(first)) ?? [];
    return !beside.some((other) => covers[other.rule]?.includes(hit.rule) && isCovered(hit, other));
  });
}

function isCovered(hit: Hit, by: Hit): boolean {
  if (gravity(by) > gravity(hit)) return false;
  const { segments, notes } = reachOf(by);
  return (
    hit.segments.every((one) => segments.has(one)) && hit.notes.every((n) => notes.has(keyOf(n)))
  );
}

type Reach = { readonly segments: ReadonlySet<Segment>; readonly notes: ReadonlySet<string> };

/** What a hit speaks about; rules hand out the same hits while nothing changes. */
const reachOf = remembered(
  (hit: Hit): Reach => ({
    segments: new Set(hit.segments),
    notes: new Set(hit.notes.map(keyOf)),
  }),
);

function keyOf({ lane, slot, pitch }: FindingNote): string {
  return `${lane} ${slot} ${pitch}`;
}

/** The reason that covers the first slot, when silences of the rule cover every bar. */
function silencesOf(silences: Board["silences"]) {
  const reasons = new Map<string, Map<BarId, string>>();
  for (const { rule, bars, reason } of silences) {
    const ofRule = reasons.get(rule) ?? new Map<BarId, string>();
    for (const bar of bars) if (!ofRule.has(bar)) ofRule.set(bar, reason);
    reasons.set(rule, ofRule);
  }
  return (rule: RuleId, segments: readonly Segment[]): string | undefined => {
    const ofRule = reasons.get(rule);
    if (ofRule === undefined) return undefined;
    const found = segments.map(({ bar }) => ofRule.get(bar.id));
    return found.every((reason) => reason !== undefined) ? found[0] : undefined;
  };
}

/** Joins hits in slots that follow one another in a passage when they say exactly the same. */
function joined(hits: readonly SettledHit[], placeOf: PlaceOf): readonly SettledHit[] {
  const runs = new Map<string, SettledHit[]>();
  for (const hit of hits) {
    const key = saidBy(hit);
    const group = runs.get(key);
    const run = group?.at(-1);
    if (group === undefined) runs.set(key, [hit]);
    else if (run !== undefined && follows(run, hit, placeOf))
      group[group.length - 1] = join(run, hit);
    else group.push(hit);
  }
  return [...runs.values()].flat();
}

/** The same text for hits that say the same. */
const saidBy = remembered(({ rule, severity, lanes, unit, silenced, words }: SettledHit) =>
  [rule, severity, lanes, unit, silenced === undefined, silenced, words].join("|"),
);

/** Hits with a place of their own inside their slots are never joined. */
function follows(run: SettledHit, hit: SettledHit, placeOf: PlaceOf): boolean {
  if (run.span !== undefined || hit.span !== undefined) return false;
  return placeOf(hit.segments[0]) === placeOf(run.segments.at(-1)) + 1;
}

function join(a: SettledHit, b: SettledHit): SettledHit {
  return {
    ...a,
    segments: [...a.segments, ...b.segments],
    notes: [...a.notes, ...b.notes],
    measured: Math.max(a.measured, b.measured),
  };
}

const asFinding = remembered((hit: SettledHit): Finding => {
  const slots = hit.segments.map((segment) => segment.slot.id);
  const first = hit.segments[0];
  const within = hit.span === undefined || first === undefined ? 0 : hit.span.start - first.start;
  const place = hit.span === undefined ? "" : `@${within}`;
  const spans = spansOf(hit);
  return {
    id: `${hit.rule}:${hit.lanes.join("+")}:${slots[0]}${place}`,
    rule: hit.rule,
    severity: hit.severity,
    isPraise: hit.isPraise ?? false,
    lanes: hit.lanes,
    bars: spans.map((span) => span.bar),
    slots,
    spans,
    notes: hit.notes,
    measured: hit.measured,
    threshold: hit.threshold,
    unit: hit.unit ?? usualUnits[hit.rule],
    words: hit.words,
    silenced: hit.silenced,
  };
});

/** The slots of a hit in bars that go on when it is heard: a long note was struck before. */
function heardIn({ segments, span }: Hit): readonly Segment[] {
  if (span === undefined) return segments;
  return segments.filter(({ bar, slot, start }) => start - slot.start + bar.length > span.start);
}

/** The hit's own stretch, or its slots from end to end, bar by bar. */
function spansOf(hit: Hit): readonly FindingSpan[] {
  const from = hit.span?.start ?? 0;
  const until = hit.span?.end ?? Number.POSITIVE_INFINITY;
  const spans = new Map<BarId, FindingSpan>();
  for (const { bar, slot, start } of heardIn(hit)) {
    const barStart = start - slot.start;
    const own = spans.get(bar.id);
    const [begins, ends] =
      hit.span === undefined ? [slot.start, slot.start + slot.length] : [0, bar.length];
    spans.set(bar.id, {
      bar: bar.id,
      start: own?.start ?? ticks(Math.min(bar.length, Math.max(begins, from - barStart))),
      end: ticks(Math.max(0, Math.min(ends, until - barStart))),
    });
  }
  return [...spans.values()];
}
