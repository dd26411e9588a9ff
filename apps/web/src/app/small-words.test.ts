/** Short names for people and files. */
import { expect, test } from "vitest";
import { initials } from "./initials.ts";
import { fileName } from "./take-copy.ts";

test.each([
  ["Mara", "M"],
  ["Jo de Wit", "JW"],
  ["  ola  ", "O"],
  ["Émile Åberg", "ÉÅ"],
  ["", ""],
])("the initials of %j are %j", (name, letters) => {
  expect(initials(name)).toBe(letters);
});

test.each([
  ["Paper Ferry Home", "paper-ferry-home.halflap.json"],
  ["../etc/passwd", "etc-passwd.halflap.json"],
  ["", "board.halflap.json"],
  ["¡¿?!", "board.halflap.json"],
])("a copy of %j is saved under a plain name", (title, name) => {
  expect(fileName(title)).toBe(name);
});
