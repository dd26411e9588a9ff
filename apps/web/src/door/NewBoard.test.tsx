/**
 * Files on the door: what was being written is never lost to one.
 *
 * @vitest-environment jsdom
 */
import { cleanup, fireEvent, render, screen, waitFor } from "@solidjs/testing-library";
import { afterEach, beforeEach, expect, test } from "vitest";
import { createDraftText } from "./chart-draft-text.ts";
import { NewBoard } from "./NewBoard.tsx";

beforeEach(() => localStorage.clear());
afterEach(cleanup);

const making = { isMaking: () => false, problem: () => undefined, make: async () => false };

function open() {
  const view = render(() => {
    const draft = createDraftText();
    return <NewBoard draft={draft} making={making} name="" onName={() => {}} />;
  });
  const field = () => screen.getByRole<HTMLTextAreaElement>("textbox", { name: /^The chart/ });
  const type = (text: string) => fireEvent.input(field(), { target: { value: text } });
  const drop = async (text: string) => {
    const files = [new File([text], "tune.txt", { type: "text/plain" })];
    const input = view.container.querySelector<HTMLInputElement>("input[type=file]");
    if (input !== null) fireEvent.change(input, { target: { files } });
    await waitFor(() => expect(field().value).toBe(text.replaceAll("\r\n", "\n")));
  };
  const back = () => fireEvent.click(screen.getByRole("button", { name: "Change back to it" }));
  return { ...view, field, type, drop, back };
}

test("a text file takes nothing away: what was written is kept, also over a reload", async () => {
  const first = open();
  first.type("| F7 | mine |");
  await first.drop("| C7 |");
  first.unmount();
  const { field, back } = open();
  expect(field().value).toBe("| C7 |");
  back();
  expect(field().value).toBe("| F7 | mine |");
  back();
  expect(field().value).toBe("| C7 |");
});

test("several files one after the other keep each text", async () => {
  const { field, type, drop, back } = open();
  type("| F7 |");
  await drop("| C7 |");
  await drop("| G7 |");
  back();
  expect(field().value).toBe("| F7 |");
});

test("nothing is offered where nothing was written", async () => {
  const { drop } = open();
  await drop("| C7 |");
  await drop("| C7 |");
  expect(screen.queryByRole("button", { name: "Change back to it" })).toBeNull();
});

test("a problem in a file with Windows line ends takes the caret to its place", async () => {
  const { field, drop } = open();
  await drop("F, 104\r\n\r\n| F7 | Bb77 |\r\n");
  fireEvent.click(screen.getByRole("button", { name: /Line 3, column 8/ }));
  const { value, selectionStart, selectionEnd } = field();
  expect(value.slice(selectionStart, selectionEnd)).toBe("Bb77");
});
