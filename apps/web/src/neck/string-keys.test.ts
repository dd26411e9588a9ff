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
    ["x silences", "x", 5, undefined],
    ["Home is the open string", "Home", 9, 0],
  ])("%s", (_, key, from, to) => {
    expect(stringKey(press(key), from, undefined, range, false)).toEqual(put(to));
  });

  test("up and down walk the strings", () => {
    expect(stringKey(press("ArrowDown"), 3, undefined, range, false)).toEqual({
      kind: "walk",
      by: 1,
    });
  });

  test("left and right change sides on a mirrored neck", () => {
    expect(stringKey(press("ArrowLeft"), 3, undefined, range, true)).toEqual(put(4));
  });

  test("a digit puts the fret that it makes, if it makes one", () => {
    expect(stringKey(press("2"), 1, 12, range, false)).toEqual(put(12));
    expect(stringKey(press("1"), undefined, undefined, range, false)).toBeUndefined();
  });

  test("undo and unknown keys pass", () => {
    expect(stringKey({ ...press("z"), ctrlKey: true }, 3, undefined, range, false)).toBeUndefined();
    expect(stringKey(press("Tab"), 3, undefined, range, false)).toBeUndefined();
  });
});
