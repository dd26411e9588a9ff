/** R31: a quiet shift along the wound strings squeaks. */
import { type LaneId, laneIds } from "@halflap/board/board";
import { isOpen, type Setup } from "@halflap/theory/tuning";
import { type BarRule, barByBar } from "../bar-by-bar.ts";
import { type HandMove, movesFrom, placesOf } from "../hand-moves.ts";
import { travelOf } from "../hand-travel.ts";
import type { Hit } from "../hit.ts";
import type { Segment } from "../segments.ts";
import type { Tune } from "../tune.ts";
import { sentence } from "../words.ts";

/** The third string is plain in most electric sets: common practice, no source. */
const lowestPlain = 3;

const inBar: BarRule = (bar, ahead, tune) =>
  laneIds.flatMap((lane) => {
    const bySlot = new Map<Segment, Hit>();
    for (const move of movesFrom(bar, ahead, lane, tune.setups)) {
      const hit = squeakOf(move, placesOf(move, bar, ahead), lane, tune);
      const place = hit?.segments[0];
      if (hit === undefined || place === undefined) continue;
      const known = bySlot.get(place);
      if (known === undefined || known.measured < hit.measured) bySlot.set(place, hit);
    }
    return [...bySlot.values()];
  });

/** At most one note a lane and slot: into it, or at a seam out of it, the hand squeaks. */
export const squeak = barByBar(inBar);

function squeakOf(
  move: HandMove,
  { from, to }: ReturnType<typeof placesOf>,
  lane: LaneId,
  tune: Tune,
): Hit | undefined {
  const loudness = move.bar.played.lanes[lane].dynamic;
  if (loudness !== "p" && loudness !== "pp") return undefined;
  if (move.from.isCut || hasGap(move)) return undefined;
  if (travelOf(move.from, move.to, tune.setups[lane], tune.limits) === undefined) return undefined;
  const frets = Math.abs((move.from.stopped?.lowest ?? 0) - (move.to.stopped?.lowest ?? 0));
  if (frets < tune.limits.squeak) return undefined;
  const struck = woundUnder(move, tune.setups[lane], tune.limits.squeak);
  const isWithin = to?.isWithin === true;
  const place = (isWithin ? to : from)?.segment;
  if (struck.length === 0 || place === undefined) return undefined;
  const pitches = isWithin
    ? struck.map(({ to }) => to.pitch)
    : struck.map(({ from }) => from.pitch);
  return {
    rule: "R31",
    severity: "note",
    lanes: [lane],
    segments: [place],
    notes: pitches.map((pitch) => ({ lane, slot: place.slot.id, pitch })),
    measured: frets,
    threshold: tune.limits.squeak,
    words: `${sentence(tune.players[lane])} plays so quietly here that the shift squeaks on the \
wound strings: lift the fingers first.`,
  };
}

/** A note of a line that ends before the next one leaves the finger time to lift. */
function hasGap({ from, start, end }: HandMove): boolean {
  return from.length !== undefined && !from.letRing && start + from.length < end;
}

/** The wound strings along which a finger moves: stopped before and after, at other frets. */
function woundUnder({ from, to }: HandMove, setup: Setup, frets: number) {
  return from.notes.flatMap((one) => {
    if (one.string <= lowestPlain || isOpen(setup, one.fret)) return [];
    const other = to.notes.find(({ string }) => string === one.string);
    if (other === undefined || isOpen(setup, other.fret)) return [];
    const isFar = Math.abs(one.fret - other.fret) >= frets;
    return isFar ? [{ from: one, to: other }] : [];
  });
}
