/**
 * Which keys undo, and when they are somebody else's.
 *
 * @vitest-environment jsdom
 */
import { expect, test } from "vitest";
import { undoStep } from "./undo-keys.ts";

function press(key: string, held: KeyboardEventInit, target: Element = document.body) {
  const event = new KeyboardEvent("keydown", { key, ...held });
  Object.defineProperty(event, "target", { value: target });
  return undoStep(event);
}

test.each([
  ["z", { ctrlKey: true }, "undo"],
  ["z", { metaKey: true }, "undo"],
  ["Z", { ctrlKey: true, shiftKey: true }, "redo"],
  ["Z", { metaKey: true, shiftKey: true }, "redo"],
  ["y", { ctrlKey: true }, "redo"],
  ["z", {}, undefined],
  ["z", { ctrlKey: true, altKey: true }, undefined],
  ["x", { ctrlKey: true }, undefined],
])("%s with %j means %s", (key, held, step) => {
  expect(press(key, held)).toBe(step);
});

test("while somebody types, the field's own undo is theirs", () => {
  const field = document.createElement("textarea");
  expect(press("z", { ctrlKey: true }, field)).toBeUndefined();
  const box = Object.assign(document.createElement("input"), { type: "checkbox" });
  expect(press("z", { ctrlKey: true }, box)).toBe("undo");
});

test("while a dialog is open nothing is undone behind it", () => {
  const dialog = document.body.appendChild(document.createElement("dialog"));
  dialog.open = true;
  expect(press("z", { ctrlKey: true })).toBeUndefined();
  dialog.open = false;
  expect(press("z", { ctrlKey: true })).toBe("undo");
  dialog.remove();
});
