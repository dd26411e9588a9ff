/**
 * Single keys can be changed and switched off; what the board listens to and shows follows.
 *
 * @vitest-environment jsdom
 */
import { cleanup, fireEvent, screen } from "@solidjs/testing-library";
import { afterEach, beforeEach, expect, test } from "vitest";
import { boardWords, keyWords } from "../words/board.ts";
import { forgetKeys } from "./chosen-keys.ts";
import { KeyHint } from "./KeyHint.tsx";
import { KeysDialog } from "./KeysDialog.tsx";
import { commandOf } from "./keys.ts";
import { openBoard } from "./test-support/open-board.tsx";

beforeEach(forgetKeys);
afterEach(cleanup);

const means = (key: string) =>
  commandOf({ key, ctrlKey: false, metaKey: false, altKey: false })?.kind;

function open() {
  const { container } = openBoard().draw(() => (
    <>
      <KeyHint name="fit" />
      <KeysDialog onClose={() => undefined} />
    </>
  ));
  const field = (name: keyof typeof keyWords) =>
    screen.getByLabelText<HTMLInputElement>(boardWords.keyFor(keyWords[name]));
  const write = (name: keyof typeof keyWords, text: string) =>
    fireEvent.change(field(name), { target: { value: text } });
  const alert = () => screen.queryByRole("alert", { hidden: true })?.textContent;
  return { field, write, alert, hint: () => container.querySelector("kbd")?.textContent };
}

test("a key that is changed means the same as before, and its hint says so", () => {
  const { write, hint } = open();
  expect([means("f"), means("g"), hint()]).toEqual(["fit", undefined, "f"]);
  write("fit", "G");
  expect([means("f"), means("g"), hint()]).toEqual([undefined, "fit", "g"]);
  expect(localStorage.getItem("halflap-keys")).toBe('{"fit":"g"}');
});

test("an empty field switches the key off", () => {
  const { field, write } = open();
  write("listen", "");
  expect([means(" "), field("listen").value]).toEqual([undefined, ""]);
  write("listen", "Space");
  expect([means(" "), field("listen").value]).toEqual(["listen", "Space"]);
});

test("a key that is taken is refused with words, and free once it is given up", () => {
  const { field, write, alert } = open();
  write("fit", "n");
  expect(alert()).toBe(boardWords.keyTaken("n", keyWords["next-finding"]));
  expect([means("n"), field("fit").value]).toEqual(["finding", "f"]);
  write("fit", "7");
  expect(alert()).toBe(boardWords.keyTaken("7", keyWords.type));
  write("fit", "Enter");
  expect([alert(), means("Enter")]).toEqual([boardWords.keyNotOne, "open"]);
  write("next-finding", "m");
  write("fit", "n");
  expect([means("n"), means("m"), alert()]).toEqual(["fit", "finding", undefined]);
});

test("all keys are as they were on one press", () => {
  const { field, write } = open();
  write("fit", "");
  fireEvent.click(screen.getByText(boardWords.keysAsTheyWere));
  expect([means("f"), field("fit").value]).toEqual(["fit", "f"]);
  expect(localStorage.getItem("halflap-keys")).toBeNull();
});
