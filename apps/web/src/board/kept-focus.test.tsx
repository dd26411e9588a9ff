/**
 * The other player's edit cuts the lines anew, and the keys stay where they stood.
 *
 * @vitest-environment jsdom
 */
import { barId, sectionId } from "@halflap/board/ids";
import { cleanup, fireEvent } from "@solidjs/testing-library";
import { afterEach, beforeEach, expect, test } from "vitest";
import { BoardView } from "./BoardView.tsx";
import { openBoard } from "./test-support/open-board.tsx";

beforeEach(() => localStorage.clear());
afterEach(cleanup);

const cell = (id: string) => document.getElementById(id);

function open() {
  const board = openBoard();
  board.draw(() => <BoardView session={board.session} opensOnFinding={false} />);
  return board;
}

test("a cell that crosses a line keeps the keys, and they walk on from there", () => {
  const { chart } = open();
  const before = cell("upper-intro-3-1");
  before?.focus();
  chart.addBar(sectionId("intro"), 0, "C7");
  expect(before?.isConnected).toBe(false);
  expect(document.activeElement).toBe(cell("upper-intro-3-1"));
  fireEvent.keyDown(document.activeElement ?? document, { key: "ArrowRight" });
  expect(document.activeElement?.id).toBe("upper-intro-4-1");
});

test("where the cell itself is gone the keys are on the board still", () => {
  const { chart } = open();
  cell("upper-intro-3-1")?.focus();
  chart.removeBar(barId("intro-3"));
  expect(document.activeElement?.getAttribute("role")).toBe("gridcell");
});

test("keys that are elsewhere stay there", () => {
  const { chart } = open();
  cell("upper-intro-3-1")?.focus();
  cell("upper-intro-3-1")?.blur();
  chart.addBar(sectionId("intro"), 0, "C7");
  expect(document.activeElement).toBe(document.body);
});
