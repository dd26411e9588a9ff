/**
 * What is typed in the neck is kept where it was typed, whichever way the neck is left.
 *
 * @vitest-environment jsdom
 */
import { barId, sectionId, slotId } from "@halflap/board/ids";
import { printGrip } from "@halflap/theory/grip";
import { cleanup, fireEvent, screen } from "@solidjs/testing-library";
import { createSignal, Show } from "solid-js";
import { afterEach, expect, test } from "vitest";
import { createBoardKeys } from "../board/board-keys.ts";
import { type SlotPlace, slotAt } from "../board/desk.ts";
import { openBoard } from "../board/test-support/open-board.tsx";
import { neckWords } from "../words/neck.ts";
import { BarWishes } from "./BarWishes.tsx";
import { GripField } from "./GripField.tsx";
import { createNeckSlot } from "./neck-slot.ts";

afterEach(cleanup);

const placeOf = (number: number): SlotPlace => ({
  ...{ kind: "slot", lane: "upper" },
  ...{ bar: barId(`intro-${number}`), slot: slotId(`intro-${number}-1`) },
});
const [first, second] = [placeOf(1), placeOf(2)];

/** The neck's fields on the place where the desk stands, once the part is there. */
function open() {
  const board = openBoard();
  const [isThere, setThere] = createSignal(true);
  const view = board.draw((desk) => {
    const place = () => {
      const here = desk.isNeckOpen() ? desk.slotPlace() : undefined;
      return here && slotAt(board.session.board, here) ? here : undefined;
    };
    return (
      <Show when={isThere() && place()}>
        {(here) => {
          const slot = createNeckSlot(desk, here);
          return (
            <div class="neck-panel">
              <GripField slot={slot} />
              <BarWishes slot={slot} />
            </div>
          );
        }}
      </Show>
    );
  });
  const grip = (place: SlotPlace) => {
    const held = board.read().lanes.upper.grips.get(place.slot);
    return held && printGrip(held);
  };
  const mark = (place: SlotPlace) => board.read().lanes.upper.marks.get(place.bar);
  const gripField = () => screen.getByLabelText<HTMLInputElement>(neckWords.grip);
  const markField = () => screen.getByLabelText<HTMLInputElement>(neckWords.mark);
  const type = (field: HTMLInputElement, text: string) => {
    field.focus();
    fireEvent.input(field, { target: { value: text } });
  };
  return { ...board, ...view, setThere, grip, mark, gripField, markField, type };
}

test("a mark and a grip are kept when the neck is closed", () => {
  const { desk, grip, mark, gripField, markField, type } = open();
  desk.openNeck(first);
  type(gripField(), "x-x-3-4-3-x");
  type(markField(), "let ring");
  desk.closeNeck();
  expect([grip(first), mark(first)]).toEqual(["x-x-3-4-3-x", "let ring"]);
});

test("they are kept in the slot in which they were typed when the neck goes on", () => {
  const { desk, grip, mark, gripField, markField, type } = open();
  const before = grip(second);
  desk.openNeck(first);
  type(markField(), "let ring");
  type(gripField(), "x-x-3-4-3-x");
  desk.openNeck(second);
  expect([grip(first), mark(first)]).toEqual(["x-x-3-4-3-x", "let ring"]);
  expect([grip(second), mark(second)]).toEqual([before, undefined]);
  expect(gripField().value).toBe(before);
});

test("a bar that is taken off the board takes the fields along, and faults nothing", () => {
  const { desk, chart, mark, markField, type } = open();
  desk.openNeck(first);
  type(markField(), "let ring");
  const field = markField();
  chart.removeBar(first.bar);
  fireEvent.blur(field);
  expect(field.isConnected).toBe(false);
  chart.bringBackBar(first.bar, sectionId("intro"), 0);
  expect(mark(first)).toBe("let ring");
});

test("a grip that can't be read is not kept, and what stood there stays", () => {
  const { desk, grip, gripField, type } = open();
  const before = grip(first);
  desk.openNeck(first);
  type(gripField(), "x-x-3");
  fireEvent.blur(gripField());
  expect([grip(first), gripField().value]).toEqual([before, "x-x-3"]);
});

test("all that is typed while the neck is on its way stands in its field", () => {
  const { desk, setThere, gripField } = open();
  setThere(false);
  desk.stand(first);
  const keys = createBoardKeys(
    desk,
    () => [],
    () => undefined,
  );
  const cell = document.createElement("div");
  cell.setAttribute("role", "gridcell");
  cell.addEventListener("keydown", keys);
  for (const key of "x-x-3") fireEvent.keyDown(cell, { key });
  setThere(true);
  expect(gripField().value).toBe("x-x-3");
  expect(document.activeElement).toBe(gripField());
  desk.openNeck(second);
  expect(gripField().value).not.toContain("x-x-3");
});
