/**
 * Half beats are turned where one stands, by keys and by pulling.
 *
 * @vitest-environment jsdom
 */
import { putPhrase } from "@halflap/board/edits/singing";
import { phraseId } from "@halflap/board/ids";
import { ticks } from "@halflap/theory/units";
import { cleanup, fireEvent, screen } from "@solidjs/testing-library";
import { afterEach, expect, test } from "vitest";
import { singingWords } from "../words/singing.ts";
import { SungGrid } from "./SungGrid.tsx";
import { openSinging } from "./test-support/open-singing.tsx";

afterEach(cleanup);

const openGrid = () => openSinging((voice) => <SungGrid voice={voice} />);
const cell = (bar: number, beat: number) =>
  screen.getByRole("button", { name: singingWords.cell(bar, beat, false) });

test("whoever turns half beats by key stays on them, also while the other marks some", () => {
  const { doc, verse } = openGrid();
  const [, , third] = verse.bars;
  if (third === undefined) throw new Error("a verse of three bars or more");
  const here = cell(verse.bars[0]?.number ?? 0, 3);
  here.focus();
  const before = here.getAttribute("aria-pressed");
  fireEvent.click(here);
  expect(here.getAttribute("aria-pressed")).not.toBe(before);
  expect(document.activeElement).toBe(here);
  const phrase = { id: phraseId("other"), bar: third.id, start: ticks(96), length: ticks(24) };
  putPhrase(doc, { ...phrase, melody: [] });
  expect(cell(third.number, 3).getAttribute("aria-pressed")).toBe("true");
  expect(document.activeElement).toBe(here);
});
