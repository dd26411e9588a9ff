/** Other grips of the same chords: in one slot, or linked through a run of slots. */
import type { LaneEdit } from "@halflap/board/proposal";
import { pretty } from "@halflap/theory/display";
import { gripPitches } from "@halflap/theory/grip";
import type { MidiNote } from "@halflap/theory/units";
import {
  barWords,
  type Candidate,
  type Place,
  type Situation,
  type WayOutMaker,
} from "./candidate.ts";
import { costOf, type Fit, fitsFor, linkCost } from "./fitness.ts";
import { leaveOutWords, leftOut } from "./thinner.ts";

/** So many grips are tried in a slot, at most so many of them on one set of strings. */
const triesInSlot = 8;
const triesOnSet = 1;
/** What costs so much more than the best is not tried: it lies too far away. */
const costBeyondBest = 15;
/** In longer runs a single slot is seldom the cure. */
const singleSlots = 2;
/** So many grips of each slot take part in the search for a run. */
const runFits = 6;

/** Sets of strings that a run may keep to; the last is any of them. */
const families: readonly (readonly string[] | undefined)[] = [
  ["2-1", "3-2"],
  ["3-2-1"],
  ["4-3-2"],
  ["5-4-3"],
  ["6-5-4"],
  undefined,
];

function isOfFamily(strings: string): boolean {
  return families.some((family) => family?.includes(strings));
}

/** The same chords held elsewhere. */
export const regrips: WayOutMaker = (situation) => {
  const { places } = situation;
  const fits = new Map(places.map((place) => [place, fitsOnce(place, situation)]));
  const single =
    places.length > singleSlots
      ? []
      : places.flatMap((place) => inSlot(place, fits.get(place) ?? [], situation));
  return places.length < 2 ? single : [...inRun(situation, fits), ...single];
};

/** Slots of one chord with the same notes around them are searched once. */
const known = new WeakMap<Situation, Map<string, readonly Fit[]>>();

function fitsOnce(place: Place, situation: Situation): readonly Fit[] {
  const isLong = situation.places.length > singleSlots;
  const bySituation = known.get(situation) ?? new Map<string, readonly Fit[]>();
  known.set(situation, bySituation);
  const { segment, before, after, grip } = place;
  const key = JSON.stringify([
    segment.slot.text,
    segment.upper,
    segment.lower,
    before,
    after,
    grip,
  ]);
  const fits = bySituation.get(key) ?? fitsFor(place, situation, isLong ? isOfFamily : () => true);
  bySituation.set(key, fits);
  return fits;
}

function inSlot(place: Place, fits: readonly Fit[], situation: Situation): readonly Candidate[] {
  const onSet = new Map<string, number>();
  const [best] = fits;
  const most = best === undefined ? 0 : costOf(best) + costBeyondBest;
  const tried = fits.filter((fit) => {
    const count = (onSet.get(fit.strings) ?? 0) + 1;
    onSet.set(fit.strings, count);
    return count <= triesOnSet && costOf(fit) <= most;
  });
  return tried.slice(0, triesInSlot).map((fit) => {
    const { bar, grip } = place;
    const gone = grip && leftOut(grip, fit.grip);
    const kind = fit.pitches.length === 2 ? "double stop" : "grip";
    return {
      kind: gone ? "strings" : kind,
      lane: situation.lane,
      edits: [gripEdit(place, fit)],
      words: gone ? leaveOutWords(gone, [bar]) : `${gripWords(place, fit)} in ${barWords([bar])}`,
      loss: 0,
    };
  });
}

function inRun(
  situation: Situation,
  fits: ReadonlyMap<Place, readonly Fit[]>,
): readonly Candidate[] {
  const run = situation.places.filter((place) => place.chord !== undefined);
  return families.flatMap((family): readonly Candidate[] => {
    const choices = run.map((place) =>
      (fits.get(place) ?? [])
        .filter((fit) => family === undefined || family.includes(fit.strings))
        .slice(0, runFits),
    );
    const linked = linkedRun(run, choices, situation);
    if (linked === undefined) return [];
    const edits = run.flatMap((place, index) => {
      const fit = linked[index];
      return fit === undefined ? [] : [gripEdit(place, fit)];
    });
    const sets = new Set(linked.map(({ strings }) => strings));
    const [first] = linked;
    const which = sets.size > 1 ? "Linked grips" : `Grips on strings ${first?.strings}`;
    const begins = run[0] && first ? `, from ${gripWords(run[0], first)}` : "";
    const words = `${which} in ${barWords(run.map(({ bar }) => bar))}${begins}`;
    return [{ kind: "run", lane: situation.lane, edits, words, loss: 0 }];
  });
}

/** A way up to a grip: what it costs and through which grips it goes. */
type Path = { readonly cost: number; readonly fits: readonly Fit[] };

/**
 * One grip a slot, so that clashes, effort and the motion between them cost least together: exact
 * over the choices, slot by slot from the left (Bellman 1957). undefined when a slot has none.
 */
function linkedRun(
  run: readonly Place[],
  choices: readonly (readonly Fit[])[],
  { setup }: Situation,
): readonly Fit[] | undefined {
  const first = run[0]?.before;
  const last = run.at(-1)?.after;
  let paths: readonly Path[] = [{ cost: 0, fits: [] }];
  const linkTo = (from: readonly MidiNote[] | undefined, fit: Fit) =>
    from === undefined ? 0 : linkCost(from, fit.pitches);
  const start = first && gripPitches(first, setup);
  for (const fits of choices) {
    paths = fits.map((fit) => {
      const own = costOf({ ...fit, motion: 0 });
      const ways = paths.map((path) => ({
        path,
        cost: path.cost + own + linkTo(path.fits.at(-1)?.pitches ?? start, fit),
      }));
      const best = cheapest(ways);
      return { cost: best?.cost ?? own, fits: [...(best?.path.fits ?? []), fit] };
    });
    if (paths.length === 0) return undefined;
  }
  const end = last && gripPitches(last, setup);
  const whole = paths.map((path) => {
    const final = path.fits.at(-1);
    return { path, cost: path.cost + (end && final ? linkCost(final.pitches, end) : 0) };
  });
  return cheapest(whole)?.path.fits;
}

function cheapest<T extends { readonly cost: number }>(all: readonly T[]): T | undefined {
  return all.reduce<T | undefined>(
    (best, each) => (best === undefined || each.cost < best.cost ? each : best),
    undefined,
  );
}

function gripEdit(place: Place, fit: Fit): LaneEdit {
  return { kind: "grip", slot: place.slot.id, grip: fit.text };
}

/** "F7 on strings 3-2-1: x-x-x-8-10-8". */
function gripWords(place: Place, fit: Fit): string {
  return `${pretty(place.slot.text)} on strings ${fit.strings}: ${fit.text}`;
}
