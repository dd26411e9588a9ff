/** Rhythm measures against the values published for clave and bell patterns. */
import { euclideanSteps, isMaximallyEven, variabilityOf } from "@halflap/theory/evenness";
import { type Rhythm, rhythmOfSteps } from "@halflap/theory/rhythm";
import {
  metricalTree,
  noteToBeatDistance,
  offBeatnessOf,
  syncopationOf,
} from "@halflap/theory/syncopation";
import { ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";

const sixteenth = ticks(12);
const beat = ticks(48);
const commonTime = metricalTree({ beats: 4, unit: 4 });

/** A rhythm by the steps from onset to onset, as the literature writes it. */
function ofIntervals(intervals: string, step = sixteenth): Rhythm {
  const struck = intervals
    .split("")
    .flatMap((count) => Array.from({ length: Number(count) }, (_, index) => index === 0));
  return rhythmOfSteps(struck, step);
}

// Onsets: Toussaint, A Mathematical Analysis of African, Brazilian and Cuban Clave Rhythms, 2002.
const binary = {
  shiko: ofIntervals("42424"),
  son: ofIntervals("33424"),
  soukous: ofIntervals("33415"),
  rumba: ofIntervals("34324"),
  bossa: ofIntervals("33433"),
  gahu: ofIntervals("33442"),
};
type Name = keyof typeof binary;

describe("T41 six clave and bell patterns of five onsets in sixteen", () => {
  // Toussaint, The Geometry of Musical Rhythm, 2013, Figure 17.13.
  test.each<[Name, number]>([
    ["shiko", 66.7],
    ["son", 40.5],
    ["soukous", 70.5],
    ["rumba", 41],
    ["gahu", 23.8],
    ["bossa", 14.3],
  ])("T42 %s varies by %f", (name, variability) => {
    expect(variabilityOf(binary[name])).toBeCloseTo(variability, 1);
  });

  // Gómez, Melvin, Rappaport & Toussaint, Mathematical Measures of Syncopation, 2005, Figure 8.
  test.each<[Name, number, number]>([
    ["shiko", 6 / 5, 0],
    ["son", 14 / 5, 1],
    ["rumba", 18 / 5, 2],
    ["soukous", 18 / 5, 2],
    ["gahu", 18 / 5, 1],
    ["bossa", 4, 2],
  ])("%s lies %f from the beat and has %i onsets off it", (name, distance, offBeat) => {
    expect(noteToBeatDistance(binary[name], beat)).toBeCloseTo(distance, 10);
    expect(offBeatnessOf(binary[name], sixteenth)).toBe(offBeat);
  });

  // Toussaint, The Geometry of Musical Rhythm, 2013, Figure 37.11.
  test("T42 of the six only the bossa-nova is maximally even", () => {
    const even = Object.entries(binary).filter(([, each]) => isMaximallyEven(each, sixteenth));
    expect(even.map(([name]) => name)).toEqual(["bossa"]);
  });

  // Longuet-Higgins & Lee 1984 by the tree, worked by hand from the definition: no published table
  // was at hand. The other formulation compares each note with the heaviest silent sixteenth
  // before the next note; they differ where two rests follow one note, as in the rumba.
  test.each<[Name, number, number]>([
    ["shiko", 2, 2],
    ["son", 4, 4],
    ["soukous", 6, 6],
    ["rumba", 6, 5],
    ["bossa", 6, 6],
    ["gahu", 5, 5],
  ])("%s is syncopated by %i on the tree, by %i on the grid", (name, tree, grid) => {
    expect(syncopationOf(binary[name], commonTime)).toBe(tree);
    expect(onTheGrid(binary[name])).toBe(grid);
  });
});

// Gómez, Melvin, Rappaport & Toussaint 2005, Figure 11: seven onsets in twelve, four beats. Onsets
// from memory of Toussaint, Classification and Phylogenetic Analysis of African Ternary Rhythm
// Timelines, 2003.
test.each([
  ["soli", "2222121", 15, 1],
  ["tambú", "2221221", 15, 2],
  ["bembé", "2212221", 21, 3],
  ["bembé-2", "1221222", 15, 2],
  ["yoruba", "2212212", 21, 2],
  ["tonada", "2121222", 15, 1],
  ["asaadua", "2221212", 15, 1],
  ["sorsonet", "1122222", 21, 1],
  ["bemba", "2122212", 15, 2],
  ["ashanti", "2122122", 21, 2],
])("T41 %s lies %s sevenths from the beat", (_, intervals, sevenths, offBeat) => {
  const rhythm = ofIntervals(intervals, ticks(16));
  expect((noteToBeatDistance(rhythm, beat) ?? 0) * 7).toBeCloseTo(sevenths, 10);
  expect(offBeatnessOf(rhythm, ticks(16))).toBe(offBeat);
});

// Toussaint, The Euclidean Algorithm Generates Traditional Musical Rhythms, 2005: all of its list.
// E(5,16) stands there with one rest too many; its intervals (33334) are right.
describe("T42 Euclidean rhythms are the published ones, and maximally even", () => {
  test.each([
    [2, 3, "21"],
    [2, 5, "23"],
    [3, 4, "211"],
    [3, 5, "221"],
    [3, 7, "223"],
    [3, 8, "332"],
    [4, 7, "2221"],
    [4, 9, "2223"],
    [4, 11, "3332"],
    [5, 6, "21111"],
    [5, 7, "21211"],
    [5, 8, "21212"],
    [5, 9, "22221"],
    [5, 11, "22223"],
    [5, 12, "32322"],
    [5, 16, "33334"],
    [7, 8, "2111111"],
    [7, 12, "2122122"],
    [7, 16, "3223222"],
    [9, 16, "212221222"],
    [11, 24, "32222322222"],
    [13, 24, "2122222122222"],
  ])("E(%i,%i) = (%s)", (onsets, steps, intervals) => {
    const made = rhythmOfSteps(euclideanSteps(onsets, steps), sixteenth);
    expect(made).toEqual(ofIntervals(intervals));
    expect(isMaximallyEven(made, sixteenth)).toBe(true);
  });
});

/**
 * Longuet-Higgins & Lee on the cyclic grid: one rest for each note, the heaviest before the next.
 */
function onTheGrid({ onsets }: Rhythm): number {
  const levels = [0, 4, 3, 4, 2, 4, 3, 4, 1, 4, 3, 4, 2, 4, 3, 4];
  const struck = new Set(onsets.map((onset) => onset / sixteenth));
  return [...struck].reduce((sum, place) => {
    let heaviest = Number.POSITIVE_INFINITY;
    for (let next = place + 1; !struck.has(next % 16); next++) {
      heaviest = Math.min(heaviest, levels[next % 16] ?? heaviest);
    }
    return sum + Math.max(0, (levels[place] ?? 0) - heaviest);
  }, 0);
}
