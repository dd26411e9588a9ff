/** Every rule, at every threshold its findings can have, says in which unit it measured. */
import { slotId } from "@halflap/board/ids";
import { gripOf } from "@halflap/theory/grip";
import { defaultSetup } from "@halflap/theory/tuning";
import { fret, midiNote, ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { check } from "./check.ts";
import { type RuleId, ruleIds } from "./finding.ts";
import { bars, type Played, type SmallBoard, smallBoard } from "./test-support/small-board.ts";
import { type LimitName, limitNames, limitTable } from "./thresholds.ts";

/** Limits by which no finding is measured: they decide whether and how it is one. */
const deciding: readonly LimitName[] = [
  ...(["overlapFixBars", "meanGapTie", "unisonLook", "mudTable", "bassZone", "bassFloor"] as const),
  ...(["rub", "jumpSpared", "sameStrumBars", "interlockCovered", "interlockCover"] as const),
  ...(["heldNote", "emptyGap", "maskPad", "moveStart", "movePerBit", "moveTarget"] as const),
  "moveFrets",
];

type Small = Partial<SmallBoard> & Pick<SmallBoard, "sections">;
/** A board, and the limit by which its finding of the rule is measured; its unit is the limit's. */
type ByLimit = readonly [rule: RuleId, limit: LimitName, board: Small];
/** A board whose finding of the rule has a threshold that is no limit. */
type ByNumber = readonly [rule: RuleId, threshold: number, unit: string, board: Small];

const chord: Played = ["C", "x-x-x-5-5-3", "x-3-2-0-1-x"];
const sparse: Played = ["C", "x-x-x-x-8-8", "x-3-2-0-x-x"];
const once = (...played: Played): Small => ({ sections: bars(played) });
const twice = (...played: Played): Small => ({ sections: bars(played, played), form: [0, 0] });
const inF = (...played: Played): Small => ({ ...once(...played), key: "F" });
const strummed = (upper: string, lower: string): Small => ({
  ...{ sections: bars(chord, chord), strums: { upper, lower } },
});

const pitches: readonly ByLimit[] = [
  ["R01", "overlapLook", twice("C", "x-x-x-2-2-x", "x-x-5-4-x-x")],
  ["R01", "overlapFix", twice("C", "x-3-2-0-1-0", "0-3-2-0-1-0")],
  ["R02", "unisonNote", twice("C", "x-x-x-5-8-8", "x-3-2-0-1-x")],
  ["R02", "unisonShareLook", twice("C", "x-x-10-9-8-8", "x-3-2-0-1-0")],
  ["R02", "unisonShareFix", twice("C", "x-x-5-5-5-3", "x-3-x-0-1-3")],
  ["R03", "sameSound", twice("C", "x-3-2-0-x-x", "x-3-2-0-x-x")],
  ["R04", "guideTonePitches", twice("G7", "x-x-x-x-8-7", "x-x-3-4-3-x")],
  ["R04", "guideTonePitchesLook", twice("G7", "x-x-x-x-8-7", "x-2-x-0-0-1")],
  [
    ...(["R05", "leadingTones"] as const),
    { sections: bars(["G7", "x-x-x-x-8-7", "x-x-3-4-3-x"], ["C", "x-x-x-x-8-8", "x-3-2-0-x-x"]) },
  ],
  ["R07", "missing", inF("C7", "x-x-x-x-8-8", "x-3-2-0-1-0")],
  ["R08", "mudNote", once("A", "-", "5-4-x-x-x-x")],
  ["R08", "mudLook", once("Ab", "-", "4-3-x-x-x-x")],
  ["R08", "mudFix", once("F#", "-", "2-1-x-x-x-x")],
  ["R09", "bassNotes", once("C", "-", "x-3-0-x-x-x")],
  [
    ...(["R12", "roughness"] as const),
    { sections: bars(sparse, sparse, ["C", "x-3-2-0-1-0", "x-3-2-0-1-3"], sparse) },
  ],
  ["R13", "foreign", inF("C7", "-", "x-x-2-3-2-x")],
  ["R13", "foreignOtherChord", inF("F7", "-", "4-6-4-5-4-4")],
  ["R14", "foreign", { ...inF("F7", "1-3-1-2-1-1", "-"), capo: { upper: 3 } }],
  ["R15", "parallelLook", inOctaves(1, 3, 5)],
  ["R15", "parallelFix", inOctaves(1, 3, 5, 4, 2)],
  [
    ...(["R16", "crossing"] as const),
    { sections: bars(sparse, ["C", "x-x-10-9-8-8", "3-x-2-0-1-0"], sparse), form: [0, 0] },
  ],
  [
    ...(["R17", "jump"] as const),
    { sections: bars(["G7", "-", "x-x-5-4-6-x"], ["C7", "-", "x-x-10-9-11-x"]) },
  ],
];

const [twelve, eight] = ["DUDUDUDUDUDU....", "DUDUDUDU........"];
const atTempo = (tempo: number, lower: string): Small => ({
  ...{ sections: bars(chord, chord), tempo, strums: { lower } },
});
const allSixteenths = "DUDUDUDUDUDUDUDU";

const strums: readonly ByLimit[] = [
  ["R18", "sameStrum", strummed("D.DU.UDU", "D.DU.UDU")],
  ["R18", "sharedBeats", strummed("D.D.D.UU", "D.D.D...")],
  ["R19", "interlock", strummed("..D..UD.", "D...D...")],
  ["R19", "thinCover", strummed("D.......", "....D...")],
  ["R20", "flam", { ...strummed("DU..........", "DU.............."), tempo: 150 }],
  ["R21", "denseLane", strummed(twelve, twelve)],
  ["R21", "denseOther", strummed(twelve, eight)],
  ["R22", "armLook", atTempo(130, allSixteenths)],
  ["R22", "armFix", atTempo(160, allSixteenths)],
  ["R22", "armStop", atTempo(220, allSixteenths)],
  ["R22", "shortStep", atTempo(151, "DU..............")],
];

const whole = { bar: 1, beat: 1, beats: 4 } as const;
const half = { bar: 1, beat: 1, beats: 2 } as const;
const inRange = {
  lane: undefined,
  type: undefined,
  range: { low: midiNote(55), high: midiNote(60) },
};
const filling = (more: Partial<SmallBoard>): Small => ({ sections: bars(sparse, sparse), ...more });
const masked = (lower: string): Small =>
  filling({ voice: inRange, phrases: [whole], strums: { lower } });
const melody = [67, 69, 71].map((pitch, index) => ({
  ...{ start: ticks(index * 48), length: ticks(48), pitch: midiNote(pitch) },
}));
const sungLine = [
  [0, "2:8"],
  [1, "2:10"],
  [2, "2:12"],
] as const;
const sings = (more: Partial<SmallBoard>): Small => ({
  sections: bars(["C", "-", "x-3-2-0-x-x"], ["C", "-", "x-3-2-0-x-x"]),
  voice: { lane: "lower", type: undefined, range: undefined },
  phrases: [whole],
  ...more,
});

const low: Played = ["C", "-", "x-x-2-2-x-x"];
const near: Played = ["C", "-", "x-x-3-3-x-x"];
const far: Played = ["C", "-", "x-x-4-4-x-x"];

const voices: readonly ByLimit[] = [
  ["R23", "fillOverlap", filling({ fills: { upper: [whole], lower: [whole] } })],
  ["R24", "fillOverVoice", filling({ fills: { upper: [whole] }, phrases: [half] })],
  [
    ...(["R25", "emptyGaps"] as const),
    {
      sections: bars(sparse, sparse, sparse),
      phrases: [1, 2, 3].map((bar) => ({ ...half, bar })),
    },
  ],
  [
    ...(["R26", "fillLate"] as const),
    filling({
      fills: { upper: [{ bar: 1, beat: 3, beats: 2.25, notes: [[1.875, "1:8"]] }] },
      phrases: [half, { ...whole, bar: 2 }],
    }),
  ],
  ["R27", "maskLook", masked("DDDDDD..")],
  ["R27", "maskFix", masked("DUDUDUDUDU......")],
  [
    ...(["R27", "maskMelody"] as const),
    filling({
      fills: { upper: [{ ...whole, kind: "line", notes: sungLine }] },
      phrases: [{ ...whole, melody }],
    }),
  ],
  ["R28", "singLook", sings({ strums: { lower: "DUDUDU.........." } })],
  ["R28", "singFix", sings({ strums: { lower: "DUDUDUDUDU......" } })],
  ["R28", "singChanges", sings({ sections: [[[low, near, low, low]]] })],
  ["R28", "singShift", sings({ sections: [[[low, far]]] })],
  ["R28", "singOffBeats", sings({ strums: { lower: ".U.U.U.." } })],
];

const shifted = (lower: string, frets = 2): Small => ({
  sections: bars(["N.C.", "-", "x-x-1-1-x-x"], ["N.C.", "-", `x-x-${frets + 1}-${frets + 2}-x-x`]),
  ...{ tempo: 104, strums: { lower } },
});
const soft = { lower: { 1: "p" } } as const;
const loud = (
  upper: "mf" | "f",
  lower: "mp" | "mf" | "f",
  more: Partial<SmallBoard> = {},
): Small => ({
  ...strummed("..D..UD.", "D...D..."),
  ...{ dynamics: { upper: { 1: upper }, lower: { 1: lower } } },
  ...more,
});
const singing = { phrases: [whole] };

const hands: readonly ByLimit[] = [
  ["R29", "moveStop", shifted("DUDUDUDUDUDUDUDU")],
  // The time is enough, and the band wants a calmer hand.
  ["R29", "moveSpeed", { ...shifted("D.D.D.D.", 10), limits: { moveSpeed: 0.2 } }],
  ["R30", "fingers", once("N.C.", "-", "9-10-11-12-13-x")],
  ["R30", "stretchLook", once("N.C.", "-", "1-x-x-x-5-x")],
  ["R30", "stretchStop", once("N.C.", "-", "1-x-x-x-6-x")],
  [
    ...(["R31", "squeak"] as const),
    {
      sections: bars(["N.C.", "-", "1-3-3-x-x-x"], ["N.C.", "-", "3-5-5-x-x-x"]),
      dynamics: soft,
    },
  ],
  ["R33", "loudnessStep", loud("f", "mp")],
  ["R33", "loudUnderVoice", loud("mf", "f", singing)],
];

const byLimit = [...pitches, ...strums, ...voices, ...hands];

const byNumber: readonly ByNumber[] = [
  ["R06", 2, "notes", inF("C7", "x-x-x-x-8-10", "x-x-2-3-3-x")],
  ["R09", 1, "notes", once("C", "-", "4-x-x-x-x-x")],
  ["R09", 4, "notes", once("C", "x-3-0-x-x-x", "x-3-0-x-x-x")],
  ["R10", 1, "semitones", inF("F", "x-x-x-x-2-x", "x-x-x-x-1-x")],
  ["R10", 13, "semitones", inF("F", "x-x-x-x-x-9", "x-x-x-x-1-x")],
  ["R11", 1, "semitones", inF("C7", "x-x-x-x-5-x", "x-x-x-x-6-x")],
  ["R14", 1, "strings", behindCapo()],
  ["R29", 1, "share", shifted("D.DU.UDU")],
  ["R30", 1, "strings", pastTheNeck()],
  [
    ...(["R32", 1, "strings"] as const),
    { sections: bars(["A", "-", "x-0-2-2-2-x"], ["Ab", "-", "x-x-6-5-4-x"]) },
  ],
  [
    ...(["R33", 0, "steps"] as const),
    loud("mf", "mf", { fills: { upper: [{ bar: 2, beat: 3, beats: 2, notes: [[0, "1:8"]] }] } }),
  ],
  ["R34", 1, "", { sections: bars(chord, ["C", "x-x-x-5-5-3", "-"]) }],
  ["R36", 0, "notes", chosenFor("F7", "F9")],
  ["R36", 1, "notes", chosenFor("F7", "C7")],
];

function inOctaves(...frets: readonly number[]): Small {
  const at = (one: number): Played => ["N.C.", `x-x-x-x-${one + 3}-x`, `x-x-${one}-x-x-x`];
  return { sections: bars(...frets.map(at)) };
}

function behindCapo(): Small {
  const setup = { ...defaultSetup, capo: fret(3), fretsFrom: "nut" } as const;
  const grips = new Map([[slotId("s1"), gripOf([1, 3, 1, 2, 1, 1].map(fret))]]);
  return { ...inF("F7", "-", "-"), laneMore: { upper: { setup, grips } } };
}

function pastTheNeck(): Small {
  const setup = { ...defaultSetup, lastFret: fret(12) };
  const frets = [undefined, undefined, undefined, undefined, undefined, fret(13)];
  const grips = new Map([[slotId("s1"), gripOf(frets)]]);
  return { ...once("N.C.", "-", "-"), laneMore: { lower: { setup, grips } } };
}

function chosenFor(before: string, now: string): Small {
  const chosen = new Map([[slotId("s1"), before]]);
  return { ...inF(now, "-", "x-x-3-2-4-x"), laneMore: { lower: { chosenFor: chosen } } };
}

function unitsOf(small: Small, rule: RuleId, threshold: number): readonly string[] {
  return check(smallBoard(small))
    .filter((finding) => finding.rule === rule && finding.threshold === threshold)
    .map(({ unit }) => unit);
}

describe("a finding names the unit in which it was measured", () => {
  test.each(byLimit)("%s measured by %s", (rule, limit, small) => {
    const { value, unit } = limitTable[limit];
    const threshold = small.limits?.[limit] ?? value;
    expect(new Set(unitsOf(small, rule, threshold))).toEqual(new Set([unit]));
  });

  test.each(byNumber)("%s measured from %d in %j", (rule, threshold, unit, small) => {
    expect(new Set(unitsOf(small, rule, threshold))).toEqual(new Set([unit]));
  });

  test("there is such a board for every rule, and for every limit that measures", () => {
    const rules = new Set<RuleId>([...byLimit, ...byNumber].map(([rule]) => rule));
    expect(ruleIds.filter((rule) => !rules.has(rule))).toEqual([]);
    const measuring = new Set<LimitName>(byLimit.map(([, limit]) => limit));
    expect(limitNames.filter((name) => !deciding.includes(name) && !measuring.has(name))).toEqual(
      [],
    );
    expect(deciding.filter((name) => measuring.has(name))).toEqual([]);
  });

  test("two limits of one rule with the same value are told apart", () => {
    const same = { singLook: 1.25, singChanges: 1.25 };
    const strums = { lower: "DUDUDU.........." };
    const board = (more: Partial<SmallBoard>) => sings({ ...more, limits: same });
    expect(unitsOf(board({ strums }), "R28", 1.25)).toEqual(["strokes a quarter note"]);
    const sections = [[[low, near, low, low]]] as const;
    expect(unitsOf(board({ sections }), "R28", 1.25)).toEqual(["grip changes a bar"]);
  });
});
