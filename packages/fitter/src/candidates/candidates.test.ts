/** W5 to W8: what each slot offers a lane, and where it offers nothing. */
import type { Board, Slot } from "@halflap/board/board";
import { editedBoard } from "@halflap/board/edited-board";
import { fillId, strumId } from "@halflap/board/ids";
import type { LaneEdit } from "@halflap/board/proposal";
import { parseStrumText } from "@halflap/board/strum-text";
import { type LaneWishes, type WishName, wishNames } from "@halflap/board/wishes";
import { gripPitches, printGrip } from "@halflap/theory/grip";
import { fret, midiNote, ticks } from "@halflap/theory/units";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  boardOfChart,
  gripFrom,
  wishing,
  withGrips,
  withUpper,
} from "../test-support/wishing-board.ts";
import { candidatesMax, candidatesOf, type SlotCandidates } from "./candidates.ts";
import { stringsIn } from "./wished-grips.ts";

const plain = boardOfChart("Four Bars\nF\n\n| F7 | Gm7 | C7 | F7 |");
const slotsOf = (board: Board): readonly Slot[] =>
  board.sections.flatMap(({ bars }) => bars.flatMap((bar) => bar.slots));

/** What the slots of the upper lane offer, in chart order. */
function offers(board: Board, most = candidatesMax): readonly SlotCandidates[] {
  return [...candidatesOf(board, "upper", most).slots.values()];
}

function texts(found: SlotCandidates | undefined): readonly string[] {
  if (found?.kind !== "grips") throw new Error(found?.words ?? "no slot");
  return found.grips.map(printGrip);
}

/** The first slot's grips with this grip in it, under wishes. */
function firstWith(grip: string, wishes: Partial<LaneWishes> = {}): readonly string[] {
  return texts(offers(wishing(withGrips(plain, grip), wishes))[0]);
}

const said = (board: Board) =>
  offers(board).map((found) => (found.kind === "none" ? found.words : "grips"));
const edited = (board: Board, ...edits: readonly LaneEdit[]) => editedBoard(board, "upper", edits);

describe("W5 nothing is chosen", () => {
  test("where there is no chord to read", () => {
    const board = boardOfChart("Gaps\nF\n\n| F7 | N.C. | C7 | F7 |");
    const [, , third] = slotsOf(board);
    const sections = board.sections.map((section) => ({
      ...section,
      bars: section.bars.map((bar) => ({
        ...bar,
        slots: bar.slots.map((slot) =>
          slot.id === third?.id ? { ...slot, text: "Hq", chord: undefined } : slot,
        ),
      })),
    }));
    expect(said({ ...board, sections })).toEqual([
      "grips",
      "Bar 2 has no chord to play there: N.C.",
      "“Hq” in bar 3 can't be read as a chord.",
      "grips",
    ]);
  });

  test("where the lane rests in every pass, but not where it rests in some", () => {
    const [bar] = plain.sections[0]?.bars ?? [];
    if (bar === undefined) throw new Error("no bar");
    const resting = edited(plain, { kind: "lay-out", bar: bar.id, rest: true });
    expect(said(resting)).toEqual([
      "F7 in bar 1: this part rests there.",
      ...Array(3).fill("grips"),
    ]);
    const twice = boardOfChart("Twice\nF\n\nVerse\n| F7 |\n\nForm: Verse, Verse");
    const [one, other] = twice.form;
    if (one === undefined || other === undefined) throw new Error("no form");
    const once = edited(twice, { kind: "rest-pass", entry: one.id, rest: true });
    expect(said(once)).toEqual(["grips"]);
    expect(said(edited(once, { kind: "rest-pass", entry: other.id, rest: true }))).toEqual([
      "F7 in bar 1: this part rests there.",
    ]);
  });

  test("where a line is played, but not under a fill, which is played out of a grip", () => {
    const [bar] = plain.sections[0]?.bars ?? [];
    if (bar === undefined) throw new Error("no bar");
    const fill = { id: fillId("f"), bar: bar.id, start: ticks(0), length: ticks(192), notes: [] };
    const figure = (kind: "fill" | "line"): LaneEdit => ({
      kind: "fill",
      fill: { ...fill, kind, together: false },
    });
    const line = said(edited(plain, figure("line")));
    expect(line[0]).toBe("F7 in bar 1: a line is played in place of a grip.");
    expect(said(edited(plain, figure("fill")))).toEqual(Array(4).fill("grips"));
  });

  test("where the pattern strikes nothing, or only muted strings", () => {
    const two = boardOfChart("Halves\nF\n\n| F7 Gm7 |");
    const strummed = (text: string) => {
      const steps = parseStrumText(text);
      if (!steps.ok) throw new Error("no pattern");
      const strum = {
        ...{ id: strumId("p"), name: "Once", step: ticks(48), feel: "board" as const },
        ...{ palmMute: false, steps: steps.value },
      };
      return said(
        edited(
          two,
          { kind: "strum", strum },
          { kind: "strum-at", place: { kind: "lane" }, strum: strum.id },
        ),
      );
    };
    const silent = "Gm7 in bar 1: the strum pattern strikes nothing there.";
    expect(strummed("D...")).toEqual(["grips", silent]);
    expect(strummed("D.d.")).toEqual(["grips", silent]);
    expect(strummed("D.D.")).toEqual(["grips", "grips"]);
    // A push before the bar line of the next slot sounds that one's grip.
    expect(strummed("D~D..")).toEqual(["grips", "grips"]);
  });

  test("where no small grip makes the chord on this guitar", () => {
    const setup = { ...plain.lanes.upper.setup, capo: fret(12), lastFret: fret(12) };
    expect(said(withUpper(boardOfChart("High\nF\n\n| Gb |"), { setup }))).toEqual([
      "G♭ in bar 1: no small grip makes it on this guitar.",
    ]);
  });

  test("where a slot without a grip is to stay so", () => {
    const words = "F7 in bar 1: no grip stands there, and it is to stay so.";
    const [slot] = slotsOf(plain);
    if (slot === undefined) throw new Error("no slot");
    expect(said(wishing(plain, { locked: new Set([slot.id]) }))[0]).toBe(words);
    expect(said(wishing(plain, { leaveAsIs: true }))[0]).toBe(words);
  });
});

describe("W6 the grip of now", () => {
  test("is among them when it meets the wishes, also when the neck would not offer it", () => {
    // Open strings beside the sixth fret, and two colours.
    expect(firstWith("x-x-x-0-6-3")).toContain("x-x-x-0-6-3");
    expect(firstWith("-")).not.toContain("x-x-x-0-6-3");
    expect(firstWith("x-x-3-2-4-x").filter((text) => text === "x-x-3-2-4-x")).toHaveLength(1);
  });

  test("is not when it is larger than is wished, or ruled out", () => {
    expect(firstWith("1-3-1-2-1-1")).not.toContain("1-3-1-2-1-1");
    expect(firstWith("1-3-1-2-1-1", { stringsMax: 6 })).toContain("1-3-1-2-1-1");
    expect(firstWith("x-x-3-2-4-x", { never: [gripFrom("x-x-3-2-4-x")] })).not.toContain(
      "x-x-3-2-4-x",
    );
    expect(firstWith("x-x-3-2-4-x", { openStrings: false })).toContain("x-x-3-2-4-x");
    expect(firstWith("x-x-x-0-6-3", { openStrings: false })).not.toContain("x-x-x-0-6-3");
  });

  test("alone is left where it is locked or the part stays, whatever else is wished", () => {
    const other = { never: [gripFrom("1-3-1-2-1-1")], stringsMax: 3, highestFret: fret(1) };
    const [first, second] = slotsOf(plain);
    if (first === undefined || second === undefined) throw new Error("no slots");
    expect(firstWith("1-3-1-2-1-1", { ...other, locked: new Set([first.id]) })).toEqual([
      "1-3-1-2-1-1",
    ]);
    expect(firstWith("1-3-1-2-1-1", { ...other, leaveAsIs: true })).toEqual(["1-3-1-2-1-1"]);
    expect(firstWith("1-3-1-2-1-1", { locked: new Set([second.id]) }).length).toBeGreaterThan(100);
  });

  test("has its top note kept", () => {
    const board = wishing(withGrips(plain, "x-x-3-2-4-x"), { keepTop: true });
    const [first, second] = offers(board);
    if (first?.kind !== "grips") throw new Error("no grips");
    const tops = first.grips.map((grip) => gripPitches(grip, plain.lanes.upper.setup).at(-1));
    expect(first.grips.length).toBeGreaterThan(3);
    expect(new Set(tops)).toEqual(new Set([63]));
    expect(texts(second)).toEqual(texts(offers(plain)[1]));
  });

  test("and every wish that narrows leave nothing that was not there without them", () => {
    const narrow: Partial<LaneWishes> = {
      ...{ lowest: midiNote(55), highest: midiNote(72), lowestFret: fret(2), highestFret: fret(9) },
      ...{ stringSets: [[4, 3, 2]], stringsMin: 3, stringsMax: 3, rootless: false, keepTop: true },
      ...{ openStrings: false, never: [gripFrom("x-x-7-8-6-x"), gripFrom("x-x-3-2-4-x")] },
    };
    fc.assert(
      fc.property(
        fc.constantFrom("x-x-3-2-4-x", "x-x-7-8-6-x", "x-8-7-8-x-x", "x-x-x-0-6-3", "-"),
        fc.subarray(wishNames.filter((name) => name in narrow)),
        fc.subarray(wishNames.filter((name) => name in narrow)),
        (grip, names, more) => {
          const asking = (all: readonly WishName[]) =>
            firstWith(grip, Object.fromEntries(all.map((name) => [name, narrow[name]])));
          const before = new Set(asking(names));
          expect(asking([...names, ...more]).filter((text) => !before.has(text))).toEqual([]);
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe("W7 a wished capo", () => {
  test("is that of the setup, and of the frets", () => {
    const { setup, slots } = candidatesOf(wishing(plain, { capo: fret(3) }), "upper");
    expect(setup.capo).toBe(3);
    const [first] = slots.values();
    if (first?.kind !== "grips") throw new Error("no grips");
    // The open D7 shape sounds F7.
    expect(texts(first)).toContain("x-x-0-2-1-2");
    const heard = gripPitches(gripFrom("x-x-0-2-1-2"), setup).map((pitch) => pitch % 12);
    expect(heard).toEqual([5, 0, 3, 9]);
  });

  test("leaves a locked grip at its place on the neck, or shows that it can't", () => {
    const [first] = slotsOf(plain);
    if (first === undefined) throw new Error("no slot");
    const locked = new Set([first.id]);
    expect(firstWith("x-x-3-5-4-x", { locked, capo: fret(2) })).toEqual(["x-x-1-3-2-x"]);
    expect(firstWith("x-x-3-2-4-x", { locked, capo: fret(2) })).toEqual(["x-x-1-0-2-x"]);
    expect(firstWith("x-x-3-2-4-x", { locked, capo: fret(3) })).toEqual([]);
    expect(firstWith("x-0-3-5-4-x", { locked, capo: fret(2) })).toEqual([]);
  });

  test("stays where it is in a part that stays as it is", () => {
    const board = wishing(withGrips(plain, "x-x-3-2-4-x"), { capo: fret(3), leaveAsIs: true });
    const { setup, slots } = candidatesOf(board, "upper");
    expect(setup).toBe(board.lanes.upper.setup);
    expect(texts([...slots.values()][0])).toEqual(["x-x-3-2-4-x"]);
  });
});

describe("W8 too many", () => {
  const wide = wishing(withGrips(plain, "x-8-7-8-x-x"), { stringsMax: 6 });

  test("are cut to whole string sets, those of now first, and it is said", () => {
    const [first] = offers(wide);
    const [all] = offers(wide, Number.POSITIVE_INFINITY);
    if (first?.kind !== "grips" || all?.kind !== "grips") throw new Error("no grips");
    expect(all.cut).toBeUndefined();
    expect(all.grips.length).toBeGreaterThan(candidatesMax);
    expect(first.grips.length).toBeLessThanOrEqual(candidatesMax);
    const kept = new Set(first.grips.map(stringsIn));
    expect(kept).toContain("5-4-3");
    expect(all.grips.filter((grip) => kept.has(stringsIn(grip)))).toEqual(first.grips);
    expect(first.cut).toMatch(/^F7 in bar 1 has \d+ grips; the \d+ on strings 5-4-3, /);
    expect(first.cut).toContain(`has ${all.grips.length} grips; the ${first.grips.length} on`);
  });

  test("of one set alone lose the last ones", () => {
    const [first] = offers(wishing(plain, { stringSets: [[4, 3, 2]] }), 5);
    if (first?.kind !== "grips") throw new Error("no grips");
    expect(first.grips).toHaveLength(5);
    expect(first.cut).toContain("the 5 on strings 4-3-2 were tried");
  });
});

test("slots that offer the same share one list", () => {
  const [one, , , four] = offers(plain);
  if (one?.kind !== "grips" || four?.kind !== "grips") throw new Error("no grips");
  expect(one.grips).toBe(four.grips);
  const again = offers(plain)[0];
  expect(again?.kind === "grips" && again.grips).toBe(one.grips);
});
