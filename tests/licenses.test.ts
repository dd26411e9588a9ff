/**
 * Every direct dependency stands in LICENSES.md with the licence it declares itself, and nothing
 * else does.
 */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { allManifests } from "./support/manifests.ts";
import { root } from "./support/sources.ts";

const rows = readFileSync(`${root}LICENSES.md`, "utf8")
  .split("\n")
  .map((line) => line.split("|").map((cell) => cell.trim()))
  .filter((cells) => cells.length === 5 && cells[1] !== "package" && !cells[1]?.startsWith("---"))
  .map((cells) => ({ name: cells[1] ?? "", licence: cells[2] ?? "", why: cells[3] ?? "" }));

const used = allManifests()
  .flatMap((manifest) => Object.keys({ ...manifest.dependencies, ...manifest.devDependencies }))
  .filter((name) => !name.startsWith("@halflap/"));

test("lists each direct dependency once, and no other", () => {
  expect(rows.map((row) => row.name).sort()).toEqual([...new Set(used)].sort());
});

test.each(rows)("$name is under $licence, and has a reason", ({ name, licence, why }) => {
  const declared = JSON.parse(readFileSync(`${root}node_modules/${name}/package.json`, "utf8"));
  expect(declared.license).toBe(licence);
  expect(why).not.toBe("");
});
