/** Values of every type that a Yjs map can hold, for what must stand them all. */
import * as Y from "yjs";

/** Plain values. */
export const anything: readonly unknown[] = [
  undefined,
  null,
  true,
  -1,
  0.5,
  Number.NaN,
  Number.POSITIVE_INFINITY,
  10n,
  "",
  "x".repeat(100_000),
  "\u0000\ud800",
  [],
  [1, "a"],
  {},
  { bar: 3, at: "0" },
  new Uint8Array(3),
];

/** Shared types, each to be made for one place. */
export const anyType: readonly (() => unknown)[] = [
  () => new Y.Map(),
  () => new Y.Array(),
  () => new Y.Text("x"),
  () => new Y.Doc(),
];
