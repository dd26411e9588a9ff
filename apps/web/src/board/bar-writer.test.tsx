/**
 * Writing a bar while the other player writes: neither work nor keys are taken from anybody.
 *
 * @vitest-environment jsdom
 */
import { barId, sectionId } from "@halflap/board/ids";
import { printBarText } from "@halflap/board/one-bar";
import { assert } from "@halflap/theory/units";
import { cleanup, fireEvent, render, screen } from "@solidjs/testing-library";
import { afterEach, expect, test } from "vitest";
import { boardWords } from "../words/board.ts";
import { SectionTools } from "./SectionTools.tsx";
import { DrawnIntro } from "./test-support/DrawnIntro.tsx";
import { openBoard } from "./test-support/open-board.tsx";

afterEach(cleanup);

const intro = sectionId("intro");
const [second, fourth] = [barId("intro-2"), barId("intro-4")];

function open() {
  const board = openBoard();
  const view = board.draw(() => <DrawnIntro session={board.session} />);
  const barNow = (id: string) => {
    const bars = board.read().sections.flatMap((section) => section.bars);
    const bar = bars.find((each) => each.id === id);
    assert(bar !== undefined, `a bar ${id}`);
    return bar;
  };
  const field = () => screen.getByRole<HTMLInputElement>("textbox");
  const type = (text: string) => fireEvent.input(field(), { target: { value: text } });
  const keep = () => fireEvent.submit(field());
  const held = () => printBarText(barNow(second), board.read().meter);
  const theyWrite = (text: string) => board.chart.writeBar(barNow(second), text);
  return { ...board, ...view, field, type, keep, held, theyWrite };
}

test("where nothing was typed the field follows the bar, and nothing is written", () => {
  const { desk, field, keep, held, theyWrite } = open();
  desk.write(second);
  theyWrite("Gm7 C9 F7 Bb7");
  expect(field().value).toBe("Gm7 C9 F7 Bb7");
  keep();
  expect([held(), desk.writing()]).toEqual(["Gm7 C9 F7 Bb7", undefined]);
});

test("what was typed over a change of the other's is kept on the second asking", () => {
  const { desk, type, keep, held, theyWrite } = open();
  desk.write(second);
  type("Bb9");
  expect(screen.queryByRole("alert")).toBeNull();
  theyWrite("Gm7 C9");
  expect(screen.getByRole("alert").textContent).toBe(boardWords.overtaken("Gm7 C9"));
  keep();
  expect([held(), desk.writing()]).toEqual(["Gm7 C9", second]);
  expect(screen.getByRole("alert").textContent).toContain(boardWords.keepOver);
  theyWrite("Gm7");
  keep();
  expect([held(), desk.writing()]).toEqual(["Gm7", second]);
  keep();
  expect([held(), desk.writing()]).toEqual(["Bb9", undefined]);
});

test("whoever goes from bar to bar writes on in the field of the next", () => {
  const { desk, field } = open();
  desk.write(second);
  expect(document.activeElement).toBe(field());
  // As a press on the cell of the next does before it opens the writer.
  field().blur();
  desk.write(fourth);
  expect(document.activeElement).toBe(field());
});

test("a writer that moves to another line keeps its text and its caret, if it had the keys", () => {
  const { desk, field, type, chart } = open();
  desk.write(second);
  type("Bb9 Eb9");
  field().setSelectionRange(3, 3);
  const before = field();
  chart.addBar(intro, 0, "C7");
  expect(field()).not.toBe(before);
  expect(document.activeElement).toBe(field());
  expect([field().value, field().selectionStart]).toEqual(["Bb9 Eb9", 3]);
});

test("a writer that moves to another line takes no keys from elsewhere", () => {
  const { desk, field, type, chart } = open();
  const elsewhere = render(() => <button type="button" />).container.querySelector("button");
  desk.write(fourth);
  type("C9");
  elsewhere?.focus();
  chart.addBar(intro, 0, "C7");
  expect(document.activeElement).toBe(elsewhere);
  expect(field().value).toBe("C9");
});

test("Escape closes the writer, and not the neck beside it", () => {
  const { desk, field } = open();
  desk.write(second);
  expect(fireEvent.keyDown(field(), { key: "Escape" })).toBe(false);
  expect(desk.writing()).toBeUndefined();
});

test("a name that was not changed here is not written over the other's", () => {
  const { draw, session, chart, read } = openBoard();
  const [section] = session.board.sections;
  assert(section !== undefined, "the demo has sections");
  draw(() => <SectionTools section={section} index={0} onDone={() => undefined} />);
  const field = screen.getByLabelText<HTMLInputElement>(boardWords.sectionName);
  chart.renameSection(intro, "Opening");
  expect(field.value).toBe("Opening");
  fireEvent.submit(field);
  expect(read().sections[0]?.name).toBe("Opening");
  fireEvent.input(field, { target: { value: "Start" } });
  fireEvent.submit(field);
  expect(read().sections[0]?.name).toBe("Start");
});
