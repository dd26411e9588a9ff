/** An answer is worked out once for each thing, whatever it says. */
import { expect, test } from "vitest";
import { remembered } from "./remembered.ts";

test("asks once for each thing, also where the answer is undefined", () => {
  const asked: unknown[] = [];
  const measure = remembered((thing: { readonly size?: number }) => {
    asked.push(thing);
    return thing.size;
  });
  const [large, none] = [{ size: 2 }, {}];
  expect([measure(large), measure(none), measure(large), measure(none)]).toEqual([
    2,
    undefined,
    2,
    undefined,
  ]);
  expect(asked).toEqual([large, none]);
  expect(measure({ size: 2 })).toBe(2);
  expect(asked).toHaveLength(3);
});
