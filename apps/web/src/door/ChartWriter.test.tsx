/**
 * Writing a chart: problems lead to their place, one press takes what was meant, text is kept.
 *
 * @vitest-environment jsdom
 */
import { cleanup, fireEvent, render, screen } from "@solidjs/testing-library";
import { afterEach, beforeEach, expect, test } from "vitest";
import { ChartWriter } from "./ChartWriter.tsx";
import { createDraftText } from "./chart-draft-text.ts";

beforeEach(() => localStorage.clear());
afterEach(cleanup);

function open() {
  const view = render(() => {
    const draft = createDraftText();
    return <ChartWriter draft={draft} />;
  });
  const field = screen.getByRole<HTMLTextAreaElement>("textbox");
  const type = (text: string) => fireEvent.input(field, { target: { value: text } });
  return { ...view, field, type };
}

test("a chart that reads well says how much of it there is", () => {
  const { type } = open();
  type("F, 104\n\nVerse\n| F7 | Bb7 |\n\nTag\n| F7 |\n");
  expect(screen.getByText("2 sections, 3 bars")).toBeTruthy();
  expect(screen.queryByRole("status")).toBeNull();
});

test("a problem says line and column, and takes the caret there", () => {
  const { field, type } = open();
  type("F, 104\n\n| F7 | Bb77 |");
  fireEvent.click(screen.getByRole("button", { name: /Line 3, column 8/ }));
  expect(field.value.slice(field.selectionStart, field.selectionEnd)).toBe("Bb77");
  expect(document.activeElement).toBe(field);
});

test("one press takes what was meant", () => {
  const { field, type } = open();
  type("F, 104\n\n| F7 | Bb77 |");
  fireEvent.click(screen.getByRole("button", { name: "Use Bb7" }));
  expect(field.value).toBe("F, 104\n\n| F7 | Bb7 |");
  expect(screen.queryByRole("status")).toBeNull();
});

test.each([
  ["| C | 3/4 F7 C7 | G |", "F7 C7 .", "| C | 3/4 F7 C7 . | G |"],
  ["A\n| C |\nB\n| F |\nB = A", "B 2", "A\n| C |\nB\n| F |\nB 2 = A"],
  ["A\n| C |\nA: | F |", "A 2", "A\n| C |\nA 2: | F |"],
])("%j: what else was typed beside it stays", (text, meant, after) => {
  const { field, type } = open();
  type(text);
  fireEvent.click(screen.getByRole("button", { name: `Use ${meant}` }));
  expect(field.value).toBe(after);
  expect(screen.queryByRole("status")).toBeNull();
});

test("what was typed is there again after a reload, problems and all", () => {
  const first = open();
  first.type("| F7 | what |");
  first.unmount();
  expect(open().field.value).toBe("| F7 | what |");
});
