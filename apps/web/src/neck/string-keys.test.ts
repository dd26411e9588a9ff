/** Keys on one string of the neck. */
import { describe, expect, test } from "vitest";
import { stringKey } from "./string-keys.ts";

const range = { lowest: 0, highest: 22 };
const press = (key: string) => ({ key, ctrlKey: false, metaKey: false, altKey: false });
const put = (fret: number | undefined) => ({ kind: "put", fret });

describe("a key on a string", () => {
  test.each<[string, string, number | undefined, number | undefined]>([
    ["a step up the neck", "ArrowRight", 3, 4],
    ["silence becomes open", "ArrowRight", undefined, 0],
    ["open becomes silence", "ArrowLeft", 0, undefined],
    ["the last fret is the end", "ArrowRight", 22, 22],
    ["a digit", "7", undefined, 7],
    ["a second digit joins", "2", 1, 12],
    ["a second digit that leaves the neck starts anew", "9", 5, 9],
    ["after two digits a new number begins", "3", 12, 3],
    ["x silences", "x", 5, undefined],
    ["Home is the open string", "Home", 9, 0],
  ])("%s", (_, key, from, to) => {
    expect(stringKey(press(key), from, range, false)).toEqual(put(to));
  });

  test("up and down walk the strings", () => {
    expect(stringKey(press("ArrowDown"), 3, range, false)).toEqual({ kind: "walk", by: 1 });
  });

  test("left and right change sides on a mirrored neck", () => {
    expect(stringKey(press("ArrowLeft"), 3, range, true)).toEqual(put(4));
  });

  test("a fret behind the capo is not put", () => {
    expect(stringKey(press("1"), undefined, { lowest: 3, highest: 22 }, false)).toBeUndefined();
  });

  test("undo and unknown keys pass", () => {
    expect(stringKey({ ...press("z"), ctrlKey: true }, 3, range, false)).toBeUndefined();
    expect(stringKey(press("Tab"), 3, range, false)).toBeUndefined();
  });
});
