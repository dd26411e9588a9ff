/**
 * The demo tune against figures worked out for it beforehand by another program, note by note: the
 * first draft shows every trouble it was written to show, the finished version none of them.
 */
import type { Board } from "@halflap/board/board";
import { demoDraft, demoSolution } from "@halflap/board/demo";
import { check } from "@halflap/checker/check";
import type { Finding, RuleId } from "@halflap/checker/finding";
import { roughnessOf } from "@halflap/checker/roughness";
import type { Segment } from "@halflap/checker/segments";
import { preparedBoard } from "@halflap/checker/tune";
import { midiOf } from "@halflap/theory/pitch";
import { describe, expect, test } from "vitest";
import { boardOfCopy } from "../support/copies.ts";

/**
 * Bar and half, chord, share, distance of mean pitches, pitches in both parts, guide tones in
 * octaves.
 */
type Row = readonly [string, string, number, number, string, string];

const verse: readonly Row[] = [
  ["1", "F7", 0.75, 7.58, "C4", "A3 A4 Eb3 Eb4"],
  ["2a", "F7", 0.75, 7.58, "C4", "A3 A4 Eb3 Eb4"],
  ["2b", "D7", 1.0, 0.75, "D3 C4", "Gb3 Gb4"],
  ["3", "Gm7", 1.0, 0.83, "G2 D3 Bb3 G4", "F3 F4"],
  ["4a", "Gm7", 1.0, 0.83, "G2 D3 Bb3 G4", "F3 F4"],
  ["4b", "C7", 1.0, 3.0, "C3 G3 C4 E4", "E3 E4"],
  ["5", "F7", 0.88, 3.0, "Eb3 C4", "Eb3 Eb4"],
  ["6", "A7", 1.0, 2.27, "A2 E3 G3 Db4 E4", ""],
  ["7a", "Dm7", 1.0, 0.8, "D3 C4", "F3 F4"],
  ["7b", "G7", 1.0, 2.5, "G2 D3 B3", "B2 B3 F3 F4"],
  ["8", "C7", 1.0, 2.8, "C3 G3", ""],
];

const chorus: readonly Row[] = [
  ["1", "Bb7", 1.0, 0.23, "Bb2 F3 D4", "Ab3 Ab4 D3 D4"],
  ["2", "Bdim7", 0.6, 6.0, "F3 D4", "Ab3 Ab4"],
  ["3", "F7/C", 1.0, 3.35, "C3 F3 Eb4", "A3 A4"],
  ["4", "D7", 1.0, 2.5, "D3 Gb3 C4 D4", ""],
  ["5", "G7", 1.0, 2.5, "G2 D3 B3", "B2 B3 F3 F4"],
  ["6", "C7", 1.0, 2.0, "C3 Bb3 E4", "E3 E4"],
  ["7a", "F7", 0.75, 7.58, "C4", "A3 A4 Eb3 Eb4"],
  ["7b", "Bb7", 1.0, 0.23, "Bb2 F3 D4", "Ab3 Ab4 D3 D4"],
  ["8a", "F7", 0.75, 7.58, "C4", "A3 A4 Eb3 Eb4"],
  ["8b", "C7", 1.0, 2.0, "C3 Bb3 E4", "E3 E4"],
];

const draft = boardOfCopy(demoDraft());
const findings = check(draft);
const inDraft = slotsBySection(draft);

/** The slots of each section, by its name, in the first way it is played. */
function slotsBySection(board: Board): ReadonlyMap<string, readonly Segment[]> {
  const { passages } = preparedBoard(board);
  return new Map(
    [...passages].reverse().map(({ passage, segments }) => [passage.section.name, segments]),
  );
}

function inSection(name: string): readonly Segment[] {
  return inDraft.get(name) ?? [];
}

/** "2b" for the second slot of the section's second bar, "3" for a bar with one slot. */
function placeOf({ slot, bar, section }: Segment): string {
  const half = bar.slots.length > 1 ? "ab".charAt(bar.slots.indexOf(slot)) : "";
  const bars = draft.sections.find(({ id }) => id === section)?.bars ?? [];
  return `${bars.indexOf(bar) + 1}${half}`;
}

function midiNotes(names: string): readonly (number | undefined)[] {
  return names === "" ? [] : names.split(" ").map(midiOf);
}

function sorted(pitches: Iterable<number | undefined>): readonly (number | undefined)[] {
  return [...new Set(pitches)].sort((a, b) => (a ?? 0) - (b ?? 0));
}

function ofRule(section: string, ...rules: readonly RuleId[]): readonly Finding[] {
  const slots = new Set(inSection(section).map(({ slot }) => slot.id));
  return findings.filter(
    (finding) => rules.includes(finding.rule) && finding.slots.some((slot) => slots.has(slot)),
  );
}

/** What findings of some rules name in a slot: pitches, each once, ascending. */
function named(section: string, place: string, ...rules: readonly RuleId[]) {
  const slot = inSection(section).find((segment) => placeOf(segment) === place)?.slot.id;
  const notes = ofRule(section, ...rules).flatMap((finding) => finding.notes);
  return sorted(notes.filter((note) => note.slot === slot).map(({ pitch }) => pitch));
}

/** The places at which a rule speaks, with its severity. */
function places(section: string, rule: RuleId): readonly string[] {
  return ofRule(section, rule).flatMap(({ slots, severity }) =>
    inSection(section)
      .filter(({ slot }) => slots.includes(slot.id))
      .map((segment) => `${placeOf(segment)} ${severity}`),
  );
}

describe.each([
  ["Verse", verse],
  ["Chorus", chorus],
] as const)("the draft's %s", (name, rows) => {
  test("shares the shelf as worked out, slot by slot", () => {
    const measured = inSection(name).map((segment) => [
      placeOf(segment),
      Math.round((segment.share ?? 0) * 100) / 100,
      Math.round((segment.meanGap ?? 0) * 100) / 100,
    ]);
    expect(measured).toEqual(rows.map(([place, , share, gap]) => [place, share, gap]));
  });

  test.each(rows)("R02 or R03, and R04, name the right notes in bar %s, %s", (...row) => {
    const [place, , , , unison, octaves] = row;
    const isOneSound = named(name, place, "R03").length > 0;
    const shared = isOneSound ? sharedIn(name, place) : named(name, place, "R02");
    expect(shared).toEqual(sorted(midiNotes(unison)));
    expect(shared.length).toBeGreaterThan(0);
    expect(named(name, place, "R04")).toEqual(sorted(midiNotes(octaves)));
  });
});

function sharedIn(section: string, place: string) {
  const segment = inSection(section).find((candidate) => placeOf(candidate) === place);
  return sorted(segment?.upper?.filter((pitch) => segment.lower?.includes(pitch)) ?? []);
}

describe("the draft", () => {
  test("R01 overlaps by 0.9375 over the eight bars of the verse, weighted by beats", () => {
    expect(ofRule("Verse", "R01")).toMatchObject([{ severity: "fix", measured: 0.9375 }]);
    expect(ofRule("Verse", "R01")[0]?.bars).toHaveLength(8);
    const all = inSection("Verse");
    const mean = (measure: (segment: Segment) => number, weight: (segment: Segment) => number) =>
      all.reduce((sum, segment) => sum + weight(segment) * measure(segment), 0) /
      all.reduce((sum, segment) => sum + weight(segment), 0);
    expect(
      mean(
        ({ share }) => share ?? 0,
        () => 1,
      ),
    ).toBeCloseTo(0.943, 3);
    expect(
      mean(
        ({ meanGap }) => meanGap ?? 0,
        ({ beats }) => beats,
      ),
    ).toBeCloseTo(3.03, 2);
  });

  test("R01 overlaps through the chorus too, whose least share is 0.6", () => {
    expect(ofRule("Chorus", "R01")).toMatchObject([{ severity: "fix" }]);
    expect(ofRule("Chorus", "R01")[0]?.bars).toHaveLength(8);
  });

  test("R03 hears one sound in bar 6, five of six pitches under two shapes", () => {
    expect(places("Verse", "R03")).toEqual(["6 fix"]);
    expect(ofRule("Verse", "R03")[0]?.measured).toBeCloseTo(5 / 6);
  });

  test("R04 speaks in nine of the eleven slots of the verse", () => {
    expect(places("Verse", "R04")).toHaveLength(9);
    expect(inSection("Verse")).toHaveLength(11);
  });

  test("R05 B2, B3 and B3 want to move up in the second half of bar 7", () => {
    const atG7 = ofRule("Verse", "R05").find(
      ({ measured, words }) => measured === 3 && /^B /.test(words),
    );
    expect(atG7?.notes.map(({ pitch }) => pitch).sort()).toEqual(midiNotes("B2 B3 B3"));
  });

  test("R05 speaks at each dominant of the verse that resolves with its 3rd in both parts", () => {
    expect(places("Verse", "R05")).toEqual(["2b fix", "4b look", "6 look", "7b look"]);
  });

  test("R06 finds no colour to complain of", () => {
    expect(findings.filter(({ rule }) => rule === "R06")).toEqual([]);
  });

  test("R07 misses B♭ in the second half of bar 4, and nothing else in verse and chorus", () => {
    expect(places("Verse", "R07")).toEqual(["4b look"]);
    expect(ofRule("Verse", "R07")[0]?.words).toBe("Nobody plays B♭, so C7 is just C.");
    expect(places("Chorus", "R07")).toEqual([]);
  });

  test("R10 rubs in bar 5 where the capo was forgotten: F2 with G♭3, A♭2 with A3", () => {
    expect(places("Verse", "R10")).toEqual(["5 fix"]);
    expect(named("Verse", "5", "R10")).toEqual(sorted(midiNotes("F2 Gb3 Ab2 A3")));
    expect(places("Chorus", "R10")).toEqual([]);
  });

  test("R11 hears the 4th against the 3rd in bar 8: F4 with E4 and E3", () => {
    expect(places("Verse", "R11")).toEqual(["8 fix"]);
    expect(named("Verse", "8", "R11")).toEqual(sorted(midiNotes("F4 E4 E3")));
  });

  test("R14 stops at bar 5, where the upper lane sounds A♭7, in place of R13", () => {
    expect(places("Verse", "R14")).toEqual(["5 stop"]);
    expect(ofRule("Verse", "R14")).toMatchObject([{ lanes: ["upper"] }]);
    expect(ofRule("Verse", "R14")[0]?.words).toContain("A♭7");
    expect([...places("Verse", "R13"), ...places("Chorus", "R13")]).toEqual([]);
    expect(places("Chorus", "R14")).toEqual([]);
  });

  test("R08 turns to mud at the open G7 only: G2-B2 by three, B2-D3 by one", () => {
    expect(places("Verse", "R08")).toEqual(["7b fix"]);
    expect(ofRule("Verse", "R08")[0]?.measured).toBe(3);
    expect(named("Verse", "7b", "R08")).toEqual(midiNotes("G2 B2 D3"));
    expect(places("Chorus", "R08")).toEqual(["5 fix"]);
  });

  test("R09 speaks in all eleven slots of the verse, about both lanes in nine", () => {
    expect(places("Verse", "R09")).toHaveLength(11);
    const low = (lane: "upper" | "lower") =>
      inSection("Verse").filter((segment) => segment[lane]?.some((pitch) => pitch < 52));
    expect(low("upper").filter((segment) => low("lower").includes(segment))).toHaveLength(9);
  });

  test("R12 is as rough as worked out, and the rough G7 is told as mud", () => {
    const rough = ["1", "2b", "3", "4b", "5", "6", "7a", "7b", "8"].map((place) => {
      const segment = inSection("Verse").find((candidate) => placeOf(candidate) === place);
      return Math.round(100 * roughnessOf(both(segment))) / 100;
    });
    expect(rough).toEqual([70.69, 55.29, 101.98, 58.66, 123.44, 82.25, 52.9, 118.21, 73.74]);
    expect(findings.filter(({ rule }) => rule === "R12")).toEqual([]);
  });

  test("R16 and R30 find nothing that R01 does not say, and no grip out of reach", () => {
    expect(findings.filter(({ rule }) => rule === "R16" || rule === "R30")).toEqual([]);
  });
});

function both(segment: Segment | undefined) {
  return [...(segment?.lower ?? []), ...(segment?.upper ?? [])];
}

describe("the finished version", () => {
  const solution = boardOfCopy(demoSolution());
  const all = slotsBySection(solution);

  test("raises no stop and no fix, and nothing about sounds and grips", () => {
    const found = check(solution);
    expect(found.filter(({ severity }) => severity === "stop" || severity === "fix")).toEqual([]);
    expect(found.filter(({ rule }) => rule < "R18" || rule === "R30")).toEqual([]);
  });

  test("keeps the mean pitches 13.6 semitones apart in the verse and 14.0 in the chorus", () => {
    const gap = (name: string) => {
      const here = all.get(name) ?? [];
      const beats = here.reduce((sum, segment) => sum + segment.beats, 0);
      return here.reduce((sum, { meanGap, beats }) => sum + (meanGap ?? 0) * beats, 0) / beats;
    };
    expect(gap("Verse")).toBeCloseTo(13.6, 1);
    expect(gap("Chorus")).toBeCloseTo(14.0, 1);
    expect([...all.values()].flat().every(({ share }) => share === undefined || share === 0)).toBe(
      true,
    );
  });
});
