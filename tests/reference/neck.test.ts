/**
 * The enumeration against every way to set six strings, 16^6 of them, thinned by nothing but the
 * definition: SPEC.md T11 to T14, written down here a second time and from literal tones.
 */

import { type Hand, usualHand } from "@halflap/theory/fingers";
import { printGrip } from "@halflap/theory/grip";
import { everydayWishes, fullWishes, gripsOf, type Wishes } from "@halflap/theory/neck";
import { chord } from "@halflap/theory/test-support/as-read";
import { defaultSetup, parseTuning, type Setup, type Tuning } from "@halflap/theory/tuning";
import { fret, type Millimetres, millimetres } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";

const tuning = (text: string): Tuning => {
  const read = parseTuning(text);
  if (!read.ok) throw new Error(`no tuning: ${text}`);
  return read.value;
};

/**
 * What a chord asks for, as pitch classes: its tones, its free colours, and what it demands, in
 * order. Chord tones as in the kinds of MusicXML 4.0; what is demanded is SPEC.md T12.
 */
type Asked = {
  readonly tones: readonly number[];
  readonly colours: readonly number[];
  readonly demands: readonly number[];
  readonly bass?: number;
};
type Case = {
  readonly title: string;
  readonly symbol: string;
  readonly asked: Asked;
  readonly setup: Setup;
  readonly wishes: Wishes;
};

const places = 16;
const silent = -1;
const widest: Millimetres = millimetres(127);
const wide: Wishes = { ...fullWishes(false), openReach: undefined, spanMax: widest };
const hand = (changes: Partial<Hand>): Hand => ({ ...usualHand, ...changes });

const cases: readonly Case[] = [
  {
    title: "F7 with its root",
    symbol: "F7",
    asked: { tones: [5, 9, 0, 3], colours: [], demands: [9, 3, 5] },
    setup: defaultSetup,
    wishes: wide,
  },
  {
    title: "Am7 in D A D G A D without a root, three fingers",
    symbol: "Am7",
    asked: { tones: [9, 0, 4, 7], colours: [], demands: [0, 7] },
    setup: { ...defaultSetup, tuning: tuning("DADGAD") },
    wishes: { ...fullWishes(true), hand: hand({ fingers: 3 }) },
  },
  {
    title: "E7(♯9) in small grips with its colour, capo 2, counted from the nut",
    symbol: "E7#9",
    asked: { tones: [4, 8, 11, 2, 7], colours: [1], demands: [8, 2, 7] },
    setup: { ...defaultSetup, capo: fret(2), fretsFrom: "nut" },
    wishes: everydayWishes(true),
  },
  {
    title: "D/F♯ without a bass player, the thumb over two strings, no barre",
    symbol: "D/F#",
    asked: { tones: [2, 6, 9], colours: [], demands: [6, 2], bass: 6 },
    setup: defaultSetup,
    wishes: { ...wide, hand: hand({ thumbStrings: 2, barres: false }) },
  },
  {
    title: "C9/G without a bass player, its bass none of the tones that are demanded",
    symbol: "C9/G",
    asked: { tones: [0, 4, 7, 10, 2], colours: [], demands: [4, 10, 2, 0], bass: 7 },
    setup: defaultSetup,
    wishes: wide,
  },
  {
    title: "C6 in open G, a mute inside a barre, on a short scale",
    symbol: "C6",
    asked: { tones: [0, 4, 7, 9], colours: [], demands: [4, 9, 0] },
    setup: { ...defaultSetup, tuning: tuning("Open G"), scaleLength: millimetres(610) },
    wishes: { ...wide, hand: hand({ barreMutes: true, thumbStrings: 1, spanMax: widest }) },
  },
];

/** Neck frets of six strings; `silent` where nothing sounds. */
type Setting = Int8Array;

/** The fewest fingers by trying, for each fret, to lay them as far as the rules let them reach. */
function fingersOf(setting: Setting, from: number, capo: number, able: Hand): number {
  let count = 0;
  for (let string = from; string < 6; string++) {
    const place = setting[string] ?? silent;
    if (place <= capo) continue;
    let isHeld = false;
    for (let below = string - 1; below >= from && able.barres; below--) {
      const other = setting[below] ?? silent;
      if (other === place) isHeld = true;
      const passes = other > place || (other === silent && able.barreMutes);
      if (!passes) break;
    }
    if (!isHeld) count++;
  }
  return count;
}

function canHold(setting: Setting, capo: number, able: Hand): boolean {
  if (fingersOf(setting, 0, capo, able) <= able.fingers) return true;
  for (let top = 0; top < able.thumbStrings; top++) {
    const thumb = setting[top] ?? silent;
    if (thumb <= capo) continue;
    const under = [...setting.slice(0, top)];
    if (under.some((place) => place !== silent && place !== thumb)) continue;
    const fingered = [...setting.slice(top + 1)].filter((place) => place > capo);
    if (thumb > Math.min(99, ...fingered) + 1) continue;
    if (fingersOf(setting, top + 1, capo, able) <= able.fingers) return true;
  }
  return false;
}

function bits(classes: readonly number[]): number {
  return classes.reduce((set, each) => set | (1 << each), 0);
}

function size(set: number): number {
  let count = 0;
  for (let rest = set; rest > 0; rest >>= 1) count += rest & 1;
  return count;
}

function isWithin(setting: Setting, setup: Setup, wishes: Wishes, last: number): boolean {
  const sounding = [...setting].flatMap((place, string) => (place === silent ? [] : [string]));
  const count = sounding.length;
  if (count < wishes.sounding.min || count > wishes.sounding.max) return false;
  const gaps = (sounding.at(-1) ?? 0) - (sounding[0] ?? 0) + 1 - count;
  if (gaps > 0 && !wishes.innerMutes) return false;
  const stopped = [...setting].filter((place) => place > setup.capo);
  const hasOpen = stopped.length < count;
  const highest = Math.max(0, ...stopped);
  const reach = setup.capo + (wishes.openReach ?? last);
  if (hasOpen && highest > reach) return false;
  const at = (place: number) => setup.scaleLength * (1 - 2 ** (-place / 12));
  const span = stopped.length === 0 ? 0 : at(highest) - at(Math.min(...stopped));
  const able = wishes.hand ?? usualHand;
  if (span > Math.min(wishes.spanMax, able.spanMax)) return false;
  return canHold(setting, setup.capo, able);
}

function isAsked(setting: Setting, heard: number, setup: Setup, wanted: Asked): boolean {
  const count = [...setting].filter((place) => place !== silent).length;
  const colours = size(heard & ~bits(wanted.tones));
  if (colours > Math.max(1, count - 2)) return false;
  if (count < 3) return true;
  const first = wanted.demands.slice(0, count);
  const isApart = wanted.bass !== undefined && !first.includes(wanted.bass);
  const demands = wanted.demands.slice(0, isApart ? count - 1 : count);
  if (demands.some((tone) => (heard & (1 << tone)) === 0)) return false;
  if (wanted.bass === undefined) return true;
  const pitches = [...setting].map((place, string) =>
    place === silent ? 999 : (setup.tuning[string] ?? 0) + place,
  );
  return Math.min(...pitches) % 12 === wanted.bass;
}

/** Runs through all settings of one string less at a time; nothing is left out on the way. */
function everySetting(use: (setting: Setting) => void, from: number): void {
  const setting = new Int8Array(6);
  for (let index = 0; index < places ** 6; index++) {
    for (let string = 5, rest = index; string >= 0; string--, rest >>= 4) {
      const choice = rest & 15;
      setting[string] = choice === 0 ? silent : from + choice - 1;
    }
    use(setting);
  }
}

function byBruteForce({ asked: wanted, setup, wishes }: Case, last: number): readonly string[] {
  const allowed = bits(wanted.tones) | (wishes.tensions ? bits(wanted.colours) : 0);
  const tones = setup.tuning.map((open) =>
    Int16Array.from({ length: 40 }, (_, place) => 1 << ((open + place) % 12)),
  );
  const found: string[] = [];
  everySetting((setting) => {
    let heard = 0;
    for (let string = 0; string < 6; string++) {
      const place = setting[string] ?? silent;
      if (place !== silent) heard |= tones[string]?.[place] ?? 0;
    }
    if (heard === 0 || (heard & ~allowed) !== 0) return;
    const count = [...setting].filter((place) => place !== silent).length;
    const needed = wishes.doublings === "needed" ? Math.min(count, wanted.tones.length) : 0;
    if (size(heard) < needed) return;
    if (!isAsked(setting, heard, setup, wanted) || !isWithin(setting, setup, wishes, last)) return;
    found.push([...setting].map((place) => typed(place, setup)).join("-"));
  }, setup.capo);
  return found;
}

function typed(place: number, { capo, fretsFrom }: Setup): string {
  if (place === silent) return "x";
  if (place <= capo) return "0";
  return String(fretsFrom === "nut" ? place : place - capo);
}

describe("T14 the enumeration is what is left of all 16^6 settings", () => {
  test.each(cases)("$title", (each) => {
    const last = each.setup.capo + places - 2;
    const wishes = { ...each.wishes, highestFret: fret(last) };
    const offered = gripsOf(chord(each.symbol), each.setup, wishes).map(printGrip);
    const tried = byBruteForce({ ...each, wishes }, last);
    expect(tried.length).toBeGreaterThan(50);
    expect(new Set(offered)).toEqual(new Set(tried));
    expect(offered).toHaveLength(tried.length);
  });
});
