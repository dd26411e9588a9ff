/** Which section is meant, and what is played of one that the form leaves out. */
import { timelineOf } from "@halflap/timeline/passages";
import { expect, test } from "vitest";
import { hasSwing } from "./has-swing.ts";
import { boardThatReaches, isInForm, sectionMeant } from "./sections-alone.ts";
import { barAt, board } from "./test-support/rehearsal.ts";

const [first, second] = board.sections;
const last = board.sections.at(-1);
if (!first || !second || !last) throw new Error("no sections");
const without = { ...board, form: board.form.filter(({ section }) => section !== last.id) };

test("a section in the form is played with the form, one outside by itself", () => {
  expect([isInForm(without, first.id), isInForm(without, last.id)]).toEqual([true, false]);
  expect(boardThatReaches(without, first.id)).toBe(without);
  expect(boardThatReaches(without, undefined)).toBe(without);
  const alone = timelineOf(boardThatReaches(without, last.id));
  expect(alone.passes.map(({ passage }) => passage.section.id)).toEqual([last.id]);
});

test("what goes round says which section is meant, else the bar one starts from", () => {
  expect(sectionMeant(board, { kind: "section", section: second.id }, barAt(0))).toBe(second.id);
  const loop = { kind: "bars", from: barAt(4), to: barAt(5) } as const;
  expect(sectionMeant(board, loop, barAt(0))).toBe(second.id);
  expect(sectionMeant(board, undefined, barAt(0))).toBe(first.id);
  expect(sectionMeant(board, undefined, undefined)).toBeUndefined();
});

test("a board swings by its feel, or by a pattern of its own", () => {
  expect(hasSwing({ ...board, feel: "swing" })).toBe(true);
  const { upper, lower } = board.lanes;
  const plain = { upper: { ...upper, strums: new Map() }, lower: { ...lower, strums: new Map() } };
  expect(hasSwing({ ...board, feel: "straight", lanes: plain })).toBe(false);
  const [id, strum] = [...upper.strums][0] ?? [];
  if (!id || !strum) throw new Error("no pattern");
  const strums = new Map([[id, { ...strum, feel: "swing" } as const]]);
  const lanes = { ...plain, upper: { ...upper, strums } };
  expect(hasSwing({ ...board, feel: "straight", lanes })).toBe(true);
});
