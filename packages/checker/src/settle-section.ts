/** From the findings of each way in which a section is played to those of the section. */
import type { BarId, Section, SlotId } from "@halflap/board/board";
import { ticks } from "@halflap/theory/units";
import type { Finding, FindingNote, FindingSpan } from "./finding.ts";
import { gravity, inReadingOrder } from "./reading-order.ts";

/**
 * The findings of several passages of one section in reading order. What several of them say is one
 * finding over all of its places; of what they say differently from the same slot on, the gravest
 * that stands speaks, and what it leaves untold of others' places stays beside it.
 */
export function settleSection(
  section: Section,
  passages: readonly (readonly Finding[])[],
): readonly Finding[] {
  const [only, ...more] = passages;
  if (only !== undefined && more.length === 0) return only;
  const order = orderOf(section);
  const byId = new Map<string, Finding[]>();
  for (const finding of passages.flat()) {
    const told = byId.get(finding.id) ?? [];
    const same = told.findIndex((each) => saysSame(each, finding));
    const known = told[same];
    if (known === undefined) told.push(finding);
    else told[same] = both(known, finding, order);
    byId.set(finding.id, told);
  }
  const placeOf = ({ slots: [slot] }: Finding) => (slot && order.slots.get(slot)) ?? order.end;
  const findings = [...byId.values()].flatMap(apart);
  return inReadingOrder(findings.map((finding) => ({ finding, place: placeOf(finding) })));
}

/** Where bars and slots stand in the section. */
type Order = {
  readonly slots: ReadonlyMap<SlotId, number>;
  readonly bars: ReadonlyMap<BarId, number>;
  readonly end: number;
};

function orderOf({ bars }: Section): Order {
  const slots = bars.flatMap((bar) => bar.slots);
  return {
    slots: new Map(slots.map((slot, index) => [slot.id, index])),
    bars: new Map(bars.map((bar, index) => [bar.id, index])),
    end: slots.length,
  };
}

function saysSame(a: Finding, b: Finding): boolean {
  return (
    a.severity === b.severity &&
    a.silenced === b.silenced &&
    a.words === b.words &&
    a.unit === b.unit
  );
}

/** One finding over the places of both, which begin alike and may end in different endings. */
function both(a: Finding, b: Finding, order: Order): Finding {
  if (isWithin(b, new Set(a.slots))) return a;
  if (isWithin(a, new Set(b.slots))) return b;
  const place = <K>(places: ReadonlyMap<K, number>, key: K) => places.get(key) ?? order.end;
  const slots = [...new Set([...a.slots, ...b.slots])].sort(
    (one, other) => place(order.slots, one) - place(order.slots, other),
  );
  const spans = spansOfBoth(a.spans, b.spans).sort(
    (one, other) => place(order.bars, one.bar) - place(order.bars, other.bar),
  );
  return {
    ...a,
    slots,
    spans,
    bars: spans.map(({ bar }) => bar),
    notes: [...new Map([...a.notes, ...b.notes].map((note) => [keyOf(note), note])).values()],
    measured: Math.max(a.measured, b.measured),
  };
}

function spansOfBoth(a: readonly FindingSpan[], b: readonly FindingSpan[]): FindingSpan[] {
  const byBar = new Map<BarId, FindingSpan>();
  for (const span of [...a, ...b]) {
    const known = byBar.get(span.bar) ?? span;
    const [start, end] = [Math.min(known.start, span.start), Math.max(known.end, span.end)];
    byBar.set(span.bar, { bar: span.bar, start: ticks(start), end: ticks(end) });
  }
  return [...byBar.values()];
}

/** Those that begin alike, each with an id of its own; what is told already is left out. */
function apart(told: readonly Finding[]): readonly Finding[] {
  if (told.length === 1) return told;
  const isStanding = ({ silenced }: Finding) => silenced === undefined;
  const gravestFirst = [...told].sort(
    (a, b) => Number(isStanding(b)) - Number(isStanding(a)) || gravity(a) - gravity(b),
  );
  const slots = new Set<SlotId>();
  const kept: Finding[] = [];
  for (const finding of gravestFirst) {
    const fresh = finding.slots.filter((slot) => !slots.has(slot));
    for (const slot of fresh) slots.add(slot);
    if (kept.length === 0) kept.push(finding);
    else if (fresh.length > 0) kept.push({ ...finding, id: `${finding.id}|${fresh.join("+")}` });
  }
  return kept;
}

function isWithin({ slots }: Finding, all: ReadonlySet<SlotId>): boolean {
  return slots.every((slot) => all.has(slot));
}

function keyOf({ lane, slot, pitch }: FindingNote): string {
  return `${lane} ${slot} ${pitch}`;
}
