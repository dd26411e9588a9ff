/** Finding slots and bars again. */
import { barId, slotId } from "@halflap/board/ids";
import { expect, test } from "vitest";
import { barsOfEdits, placeOfBar, placeOfSlot, slotWithBar } from "./slot-places.ts";
import { demoBoard } from "./test-support/answers.ts";

const { sections } = demoBoard();
const bars = sections.flatMap((section) => section.bars);
const bar = bars.find(({ slots }) => slots.length > 1);
const slot = bar?.slots[1];
if (bar === undefined || slot === undefined) throw new Error("the demo has a bar of two chords");

test("a slot is found with its bar, a bar by its first slot", () => {
  expect(slotWithBar(sections, slot.id)?.bar.id).toBe(bar.id);
  expect(placeOfSlot(sections, "upper", slot.id)).toEqual({
    kind: "slot",
    lane: "upper",
    bar: bar.id,
    slot: slot.id,
  });
  expect(placeOfBar(sections, "lower", bar.id)).toMatchObject({
    number: bar.number,
    place: { slot: bar.slots[0]?.id },
  });
});

test("what is gone is not found", () => {
  expect(placeOfSlot(sections, "upper", slotId("gone"))).toBeUndefined();
  expect(placeOfBar(sections, "upper", barId("gone"))).toBeUndefined();
});

test("edits are about the bars they name or whose slots they change, in chart order", () => {
  const [first] = bars;
  if (first === undefined) throw new Error("the demo has bars");
  const grip = { kind: "grip", slot: slot.id, grip: "x-x-3-2-4-x" } as const;
  const mark = { kind: "mark", bar: first.id, text: "softly" } as const;
  expect(barsOfEdits(sections, [grip, mark])).toEqual([first.id, bar.id]);
});

test("what says nothing of a place is about all bars", () => {
  const gone = { kind: "grip", slot: slotId("gone"), grip: undefined } as const;
  expect(barsOfEdits(sections, [gone])).toHaveLength(bars.length);
});
