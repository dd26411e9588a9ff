/** The key map: one meaning a key, and nothing taken from the browser. */
import { describe, expect, test } from "vitest";
import { bindings, commandOf } from "./keys.ts";

const plain = { ctrlKey: false, metaKey: false, altKey: false };

describe("the key map", () => {
  test("gives no key two meanings", () => {
    const keys = bindings.flatMap((binding) => binding.keys);
    expect(new Set(keys).size).toBe(keys.length);
  });

  test("every key listed does what its row says", () => {
    for (const binding of bindings) {
      for (const key of binding.keys) {
        const ctrlKey = key.startsWith("Ctrl+");
        const press = { ...plain, ctrlKey, key: key.replace("Ctrl+", "") };
        expect(commandOf(press)).toEqual(binding.command(key));
      }
    }
  });

  test.each([
    ["ArrowUp", { kind: "walk", direction: "up" }],
    ["Home", { kind: "walk", direction: "line-start" }],
    ["N", { kind: "finding", step: 1 }],
    ["X", { kind: "type", text: "x" }],
    ["7", { kind: "type", text: "7" }],
  ])("%s", (key, command) => {
    expect(commandOf({ ...plain, key })).toEqual(command);
  });

  test("Command stands for Control on a Mac", () => {
    expect(commandOf({ ...plain, metaKey: true, key: "End" })).toEqual({
      kind: "walk",
      direction: "board-end",
    });
  });

  test("leaves undo, tabs, menus and unknown keys alone", () => {
    for (const key of ["z", "n", "p", "7", "Enter", "r"]) {
      expect(commandOf({ ...plain, ctrlKey: true, key })).toBeUndefined();
    }
    expect(commandOf({ ...plain, altKey: true, key: "ArrowLeft" })).toBeUndefined();
    expect(commandOf({ ...plain, key: "Tab" })).toBeUndefined();
  });
});
