/** Borrowing never runs in a circle. */
import type { Section, SectionId } from "@halflap/board/board";
import { expect, test } from "vitest";
import { lendersOf } from "./borrowing.ts";

const section = (id: string, borrows?: string): Section => ({
  id: id as SectionId,
  name: id,
  borrows: borrows as SectionId | undefined,
  bars: [],
});
const sections = [section("verse"), section("solo", "verse"), section("outro", "solo")];
const lenders = (id: string) => lendersOf(sections, id as SectionId).map((each) => each.id);

test("a section borrows from any other that does not play its own chords", () => {
  expect(lenders("outro")).toEqual(["verse", "solo"]);
  expect(lenders("solo")).toEqual(["verse"]);
  expect(lenders("verse")).toEqual([]);
});
