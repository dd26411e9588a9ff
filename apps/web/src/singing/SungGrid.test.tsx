/**
 * Half beats are turned where one stands, by keys and by pulling.
 *
 * @vitest-environment jsdom
 */
import { putPhrase, removePhrase } from "@halflap/board/edits/singing";
import { phraseId } from "@halflap/board/ids";
import { ticks } from "@halflap/theory/units";
import { cleanup, fireEvent, screen } from "@solidjs/testing-library";
import { afterEach, expect, test, vi } from "vitest";
import { singingWords } from "../words/singing.ts";
import { SungGrid } from "./SungGrid.tsx";
import { openSinging } from "./test-support/open-singing.tsx";

// What this document has none of.
const capture = vi.fn();
Element.prototype.setPointerCapture = capture;
let under: Element | null = null;
document.elementFromPoint = () => under;

afterEach(() => {
  cleanup();
  capture.mockClear();
});

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

/** Pulls from beat 1 to beat 3 of a bar in which nothing is sung, and on, beyond the grid. */
function pullOut() {
  const { doc, read, verse } = openGrid();
  const bars = new Set(verse.bars.map(({ id }) => id));
  for (const { id, bar } of read().phrases) if (bars.has(bar)) removePhrase(doc, id);
  const { id, number } = verse.bars[0] ?? {};
  if (id === undefined || number === undefined) throw new Error("a verse of a bar or more");
  fireEvent.pointerDown(cell(number, 1), { button: 0, buttons: 1, pointerId: 7 });
  const grid = cell(number, 1).closest(".sung-rows");
  if (grid === null) throw new Error("the cells lie in a grid");
  under = cell(number, 3);
  fireEvent.pointerMove(grid, { buttons: 1 });
  under = document.body;
  fireEvent.pointerMove(grid, { buttons: 1 });
  const sung = () =>
    read().phrases.flatMap((each) => (each.bar === id ? [[each.start, each.length]] : []));
  return { grid, number, sung };
}

test("a pull that ends beyond the grid is one all the same", () => {
  const { grid, number, sung } = pullOut();
  expect(capture.mock.contexts).toEqual([grid]);
  expect(capture).toHaveBeenCalledWith(7);
  expect(cell(number, 3).getAttribute("aria-pressed")).toBe("true");
  fireEvent.pointerUp(grid);
  expect(sung()).toEqual([[0, 120]]);
});

test("a pull that was let go unseen ends, and whoever comes back pulls nothing on", () => {
  const { grid, number, sung } = pullOut();
  under = cell(number, 4);
  fireEvent.pointerMove(grid, { buttons: 0 });
  expect(cell(number, 4).getAttribute("aria-pressed")).toBe("false");
  expect(sung()).toEqual([[0, 120]]);
  fireEvent.pointerMove(grid, { buttons: 0 });
  expect(sung()).toEqual([[0, 120]]);
});
