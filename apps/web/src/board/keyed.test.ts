/** A live map read by key: who is told, and when. */
import { createMemo, createRoot, createSignal } from "solid-js";
import { expect, test } from "vitest";
import { createKeyed } from "./keyed.ts";

function open() {
  const [map, setMap] = createSignal<ReadonlyMap<string, number>>(
    new Map([
      ["a", 1],
      ["b", 2],
    ]),
  );
  const told: string[] = [];
  const [at, close] = createRoot((dispose) => [createKeyed(map), dispose] as const);
  const read = (key: string) =>
    createRoot((dispose) => {
      const value = createMemo(() => {
        told.push(key);
        return at(key);
      });
      return { value, dispose };
    });
  return { at, told, read, setMap, close };
}

test("a reader is told of changes to its own key alone", () => {
  const { told, read, setMap, close } = open();
  const [a, b, c] = [read("a"), read("b"), read("c")];
  expect([a.value(), b.value(), c.value()]).toEqual([1, 2, undefined]);
  told.length = 0;
  setMap(
    new Map([
      ["a", 1],
      ["b", 3],
    ]),
  );
  expect(told).toEqual(["b"]);
  setMap(new Map([["c", 4]]));
  expect([a.value(), b.value(), c.value()]).toEqual([undefined, undefined, 4]);
  close();
});

test("who asks without listening gets what is there now", () => {
  const { at, setMap, close } = open();
  setMap(new Map([["a", 7]]));
  expect([at("a"), at("b")]).toEqual([7, undefined]);
  close();
});

test("a key that was left can be read again", () => {
  const { read, setMap, close } = open();
  const first = read("a");
  first.dispose();
  setMap(new Map([["a", 5]]));
  expect(read("a").value()).toBe(5);
  close();
});
