/**
 * All grips of a chord, and all suggestions for a chart of 64 slots, beside trying every way to
 * put the chord's tones on the strings.
 */
import type { SoundingChord } from "@halflap/theory/chord";
import { fingersFor, fingersMax } from "@halflap/theory/fingers";
import type { Grip } from "@halflap/theory/grip";
import { fretPosition } from "@halflap/theory/hand";
import { everydayWishes, fullWishes, gripsOf, type Wishes } from "@halflap/theory/neck";
import { parseChord } from "@halflap/theory/parse-chord";
import { rankGrips } from "@halflap/theory/rank";
import { defaultSetup, openPitch, type Setup, stringNumbers } from "@halflap/theory/tuning";
import { fret, millimetres } from "@halflap/theory/units";
import { type Figure, percentile, timed } from "./figure.ts";

const roots = "C Db D Eb E F Gb G Ab A Bb B".split(" ");
const changes = "F7 D7 Gm7 C7 A7 Dm7 G7 Bb7 Bdim7 F7/C Bb6 Cmaj9 Am11 E7#9 G13 Dsus4".split(" ");
const slots = 64;
const highest = 15;
const wishes: Wishes = { ...fullWishes(true), highestFret: fret(highest) };

/** How long each takes, in ms, and what it would take by trying everything. */
export function neck(): readonly Figure[] {
  const sevenths = roots.map((root) => chord(`${root}7`));
  const next = freshSetups();
  const nextChord = around(sevenths);
  const asked = timed(240, () => void gripsOf(nextChord(), next(), wishes));
  const tried = timed(36, () => void byTrying(nextChord()));
  for (const each of sevenths) {
    const found = gripsOf(each, defaultSetup, wishes).length;
    if (found !== byTrying(each)) throw new Error(`${each.symbol}: not the same grips`);
  }
  const again = timed(240, () => void gripsOf(nextChord(), defaultSetup, wishes));
  const charts = timed(20, () => suggestions(next()));
  const baseline = (share: number, times = 1) => ({
    name: times === 1 ? "trying every setting" : `trying every setting ${times} times`,
    value: percentile(tried, share) * times,
  });
  const ms = (name: string, value: number, budget: number, times = 1): Figure => {
    return { name, unit: "ms", value, budget, baseline: baseline(0.5, times) };
  };
  const place = `frets 0 to ${highest}`;
  return [
    ms(`all grips of a seventh chord, ${place}, p50`, percentile(asked, 0.5), 5),
    ms(`all grips of a seventh chord, ${place}, p95`, percentile(asked, 0.95), 5),
    ms("the same asked again, p50", percentile(again, 0.5), 0.1),
    ms(`suggestions for a chart of ${slots} slots, p50`, percentile(charts, 0.5), 100, slots),
  ];
}

/** Every slot's grips, ranked between the grips before and after it. */
function suggestions(setup: Setup): void {
  const everyday = everydayWishes(true);
  const candidates = Array.from({ length: slots }, (_, slot) =>
    gripsOf(chord(changes[slot % changes.length] ?? "C"), setup, everyday),
  );
  let before: Grip | undefined;
  for (const [slot, each] of candidates.entries()) {
    const after = candidates[slot + 1]?.[0];
    before = rankGrips({ candidates: each, setup, before, after })[0]?.grip;
  }
}

/**
 * The number of grips of a chord, found by trying each combination of its tones on the strings
 * with the definition of SPEC.md T11 and T12.
 */
function byTrying(each: SoundingChord): number {
  const tones = new Set(each.tones.map((tone) => tone.pitchClass as number));
  const choices = stringNumbers.map((string) => {
    const open = openPitch(defaultSetup.tuning, string);
    const places = Array.from({ length: highest + 1 }, (_, place) => place);
    return [undefined, ...places.filter((place) => tones.has((open + place) % 12))];
  });
  const places: (number | undefined)[] = [];
  const tryFrom = (string: number): number => {
    const choice = choices[string];
    if (choice === undefined) return isGrip(places, each) ? 1 : 0;
    let count = 0;
    for (const place of choice) {
      places[string] = place;
      count += tryFrom(string + 1);
    }
    return count;
  };
  return tryFrom(0);
}

function isGrip(places: readonly (number | undefined)[], each: SoundingChord): boolean {
  const sounding = places.filter((place) => place !== undefined);
  if (sounding.length < 3) return false;
  const stopped = sounding.filter((place) => place > 0);
  const span =
    fretPosition(defaultSetup, Math.max(0, ...stopped)) -
    fretPosition(defaultSetup, Math.min(...stopped, 24));
  if (span > wishes.spanMax) return false;
  const hasOpen = stopped.length < sounding.length;
  if (hasOpen && Math.max(0, ...stopped) > (wishes.openReach ?? highest)) return false;
  const heard = new Set<number>();
  for (const [index, string] of stringNumbers.entries()) {
    const place = places[index];
    if (place !== undefined) heard.add((openPitch(defaultSetup.tuning, string) + place) % 12);
  }
  return (
    each.guideTones.every((tone) => heard.has(tone.pitchClass)) &&
    fingersFor(places, 0) <= fingersMax
  );
}

/** Guitars that differ by less than a hair, so that no answer is remembered. */
function freshSetups(): () => Setup {
  let made = 0;
  return () => {
    made += 1;
    const scaleLength = millimetres(defaultSetup.scaleLength + made / 1e6);
    return { ...defaultSetup, scaleLength };
  };
}

function around<T>(things: readonly T[]): () => T {
  let at = 0;
  return () => {
    const thing = things[at++ % things.length];
    if (thing === undefined) throw new Error("nothing to go around");
    return thing;
  };
}

function chord(text: string): SoundingChord {
  const read = parseChord(text);
  if (!read.ok || read.value.kind !== "chord") throw new Error(`no chord: ${text}`);
  return read.value;
}
