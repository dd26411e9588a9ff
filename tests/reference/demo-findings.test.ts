/**
 * Everything the check says about the demo tune: the first draft raises exactly the troubles it was
 * written to show, with the figures worked out for them beforehand; the finished version no stop
 * and no fix.
 */
import type { Board } from "@halflap/board/board";
import { demoDraft, demoSolution } from "@halflap/board/demo";
import { check } from "@halflap/checker/check";
import type { Finding, RuleId, Severity } from "@halflap/checker/finding";
import { preparedBoard } from "@halflap/checker/tune";
import { describe, expect, test } from "vitest";
import { boardOfCopy } from "../support/copies.ts";

/** Rule, severity, the slots it spans (2b = the second of bar 2), and what was measured. */
type Row = readonly [RuleId, Severity, string, number];

const draft = boardOfCopy(demoDraft());
const finished = boardOfCopy(demoSolution());

/** Where a fret lies on a scale of 648 mm: equal temperament. */
const placeOf = (fret: number) => 648 * (1 - 2 ** (-fret / 12));
/** The part of the time a move takes that there is: Fitts' form, with the constants of R29. */
const timeShare = (ms: number, mm: number) => ms / 1000 / (0.08 + 0.1 * Math.log2(1 + mm / 15));
/** 104 beats a minute. */
const eighth = 288.4615;
const sixteenth = 144.2308;

/** The singer strums on; the high guitar fills into the voice, both fill in one gap. */
const verse: readonly Row[] = [
  ["R01", "fix", "1 2a 2b 3 4a 4b 5 6 7a 7b 8", 0.9375],
  ["R02", "note", "1 2a", 1],
  ["R02", "look", "2b", 2 / 4],
  ["R02", "look", "3 4a", 4 / 6],
  ["R02", "fix", "4b", 4 / 5],
  ["R02", "note", "5", 2],
  ["R02", "look", "7a", 2 / 4],
  ["R02", "look", "7b", 3 / 6],
  ["R02", "note", "8", 2],
  ["R03", "fix", "6", 5 / 6],
  ["R04", "note", "1 2a", 2],
  ["R04", "note", "2b", 2],
  ["R04", "note", "3 4a", 2],
  ["R04", "note", "4b", 2],
  ["R04", "note", "5", 2],
  ["R04", "note", "7a", 2],
  ["R04", "note", "7b", 2],
  ["R05", "fix", "2b", 2],
  ["R05", "look", "4b", 3],
  ["R05", "look", "6", 2],
  ["R05", "look", "7b", 3],
  ["R07", "look", "4b", 1],
  ["R08", "fix", "7b", 3],
  ["R09", "look", "1 2a", 3],
  ["R09", "look", "2b", 2],
  ["R09", "fix", "3 4a", 4],
  ["R09", "look", "4b", 2],
  ["R09", "fix", "5", 1],
  ["R09", "look", "6 7a", 2],
  ["R09", "fix", "7b", 5],
  ["R09", "look", "8", 2],
  ["R10", "fix", "5", 13],
  ["R11", "fix", "8", 1],
  ["R14", "stop", "5", 2],
  ["R15", "fix", "6 7a 7b 8", 3],
  ["R18", "fix", "1 2a 2b 3 4a 4b 5 6 7a 7b", 1],
  ["R23", "fix", "4b", 2],
  ["R23", "fix", "8", 2],
  ["R24", "fix", "2a", 1.5],
  ["R28", "look", "1 2a 3 4a 5 6", 1.5],
  ["R29", "look", "2b 3", timeShare(eighth, placeOf(3) - placeOf(1))],
  // The capo is on 3, so the chorus grip stops no fret below 4.
  ["R29", "stop", "8", timeShare(sixteenth, placeOf(13) - placeOf(4))],
];

/** Both in sixteenths throughout. */
const chorus: readonly Row[] = [
  ["R01", "fix", "1 2 3 4 5 6 7a 7b 8a 8b", (4 + 0.6 * 4 + 16 + 0.75 * 2 + 2 + 0.75 * 2 + 2) / 32],
  ["R02", "look", "1", 3 / 5],
  ["R02", "look", "2", 2 / 4],
  ["R02", "fix", "3", 3 / 4],
  ["R02", "look", "5", 3 / 6],
  ["R02", "look", "6", 3 / 5],
  ["R02", "note", "7a", 1],
  ["R02", "look", "7b", 3 / 5],
  ["R02", "note", "8a", 1],
  ["R02", "look", "8b", 3 / 5],
  ["R03", "fix", "4", 4 / 5],
  ...["1", "2", "3", "5", "6", "7a", "7b", "8a", "8b"].map((slot): Row => ["R04", "note", slot, 2]),
  ["R05", "fix", "2", 2],
  ["R05", "look", "4", 2],
  ["R05", "look", "5", 3],
  ["R05", "look", "6", 3],
  ["R05", "look", "8b", 3],
  ["R08", "fix", "5", 3],
  ["R09", "look", "1", 3],
  ["R09", "look", "3 4", 2],
  ["R09", "fix", "5", 5],
  ["R09", "look", "6", 2],
  ["R09", "look", "7a", 3],
  ["R09", "look", "7b", 3],
  ["R09", "look", "8a", 3],
  ["R09", "look", "8b", 2],
  ["R15", "fix", "3 4 5 6", 3],
  ["R18", "fix", "1 2 3 4 5 6 7a 7b 8a 8b", 1],
  ["R21", "fix", "1 2 3 4 5 6 7a 7b 8a 8b", 16],
  ["R29", "stop", "4 5", timeShare(sixteenth, placeOf(3) - placeOf(1))],
];

/** The names of a section's slots by their ids: "3", or "2a" and "2b" where a bar has two. */
function slotNames(board: Board, name: string): ReadonlyMap<string, string> {
  const bars = board.sections.find((section) => section.name === name)?.bars ?? [];
  return new Map(
    bars.flatMap(({ slots }, index) =>
      slots.map(({ id }, half) => {
        return [id, `${index + 1}${slots.length > 1 ? "ab".charAt(half) : ""}`] as const;
      }),
    ),
  );
}

/** What is said about a section, and what was to be said, as lines that can be compared. */
function said(board: Board, name: string, findings: readonly Finding[] = check(board)) {
  const names = slotNames(board, name);
  return findings
    .filter(({ slots }) => slots.some((slot) => names.has(slot)))
    .map(({ rule, severity, slots, measured }) => {
      const here = slots.map((slot) => names.get(slot)).join(" ");
      return line([rule, severity, here, measured]);
    })
    .sort();
}

function line([rule, severity, slots, measured]: Row): string {
  return `${rule} ${severity} ${slots}: ${measured.toFixed(4)}`;
}

describe("the draft raises exactly what it was written to show", () => {
  test.each([
    ["Verse", verse],
    ["Chorus", chorus],
  ] as const)("in the %s", (name, rows) => {
    expect(said(draft, name)).toEqual(rows.map(line).sort());
  });

  test("in the Solo, the verse again, all but what concerns the voice", () => {
    const sung: readonly RuleId[] = ["R24", "R28"];
    const expected = verse.filter(([rule]) => !sung.includes(rule)).map(line);
    expect(said(draft, "Solo")).toEqual(expected.sort());
  });

  test("R29 the hand has 0.144 s, which is faster than a metre a second", () => {
    const stop = check(draft).find(({ rule, slots }) => rule === "R29" && slots[0] === "verse-8-1");
    expect(stop?.words).toBe(
      "No hand goes 21 cm in 0.14 s: the upper lane could end the fill earlier or stay nearer.",
    );
    expect((placeOf(13) - placeOf(4)) / sixteenth).toBeGreaterThan(1);
    // The figures worked out beforehand take the hand down to the capo itself.
    expect(placeOf(13) - placeOf(3)).toBeCloseTo(239.1, 1);
    expect((placeOf(13) - placeOf(3)) / sixteenth).toBeCloseTo(1.66, 2);
    expect(sixteenth / 1000 / timeShare(sixteenth, placeOf(13) - placeOf(3))).toBeCloseTo(0.488, 3);
  });

  test("R25 the one empty gap, in bar 6, is not yet two in a row", () => {
    expect(check(draft).filter(({ rule }) => rule === "R25" || rule === "R26")).toEqual([]);
  });
});

describe("the finished version", () => {
  test("raises no stop and no fix; one look, and praise for every strummed section", () => {
    const praise = ["R19 note 1 2a 2b 3 4a 4b 5 6 7a 7b 8: 0.0000"];
    // From G7 at fret 3 to C7 at fret 1 while the last word is held.
    const shift = line(["R28", "look", "7a 7b 8", placeOf(3) - placeOf(1)]);
    expect(said(finished, "Verse")).toEqual([...praise, shift].sort());
    expect(said(finished, "Chorus")).toEqual(["R19 note 1 2 3 4 5 6 7a 7b 8a 8b: 0.0000"]);
    expect(said(finished, "Solo")).toEqual(praise);
    expect([...said(finished, "Intro"), ...said(finished, "Tag")]).toEqual([]);
    expect(check(finished).filter(({ isPraise }) => isPraise)).toHaveLength(3);
  });

  test("R29 its tightest move has 1.78 times as long as it takes", () => {
    const slower = (times: number) =>
      check({
        ...finished,
        limits: new Map([
          ["moveStart", 0.08 * times],
          ["movePerBit", 0.1 * times],
        ]),
      }).filter(({ rule }) => rule === "R29");
    expect(slower(1.77)).toEqual([]);
    expect(slower(1.79).map(({ severity }) => severity)).toContain("look");
  });

  test("R30 its widest stretch is 84.2 mm", () => {
    const within = (limit: number) =>
      check({ ...finished, limits: new Map([["stretchLook", limit]]) }).some(
        ({ rule }) => rule === "R30",
      );
    expect([within(84.1), within(84.3)]).toEqual([true, false]);
    expect(placeOf(12) - placeOf(8)).toBeCloseTo(84.2, 1);
  });

  test("R15 its one step in octaves, D to C in the chorus, is not yet a run", () => {
    const steps = check({ ...finished, limits: new Map([["parallelLook", 1]]) }).filter(
      ({ rule }) => rule === "R15",
    );
    const names = slotNames(finished, "Chorus");
    expect(steps.map(({ slots }) => slots.map((slot) => names.get(slot)))).toContainEqual([
      "5",
      "6",
    ]);
    expect(check(finished).filter(({ rule }) => rule === "R15")).toEqual([]);
  });

  test("lets no two pitches meet, and nothing sounds below E3", () => {
    const pitches = preparedBoard(finished).passages.flatMap(({ segments }) => segments);
    for (const { upper = [], lower = [] } of pitches) {
      expect(Math.min(...upper, ...lower)).toBeGreaterThanOrEqual(52);
      expect(upper.filter((pitch) => lower.includes(pitch))).toEqual([]);
    }
  });
});
