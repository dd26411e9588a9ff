/** Each defence that THREAT_MODEL.md claims names a test, and that test is there. */
import { existsSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { root } from "./support/sources.ts";

/** The third column of the table of what is defended, by the attack in the first. */
function proofs(text: string): readonly (readonly [attack: string, proof: string])[] {
  const chapter = text.split("## What is defended")[1]?.split("\n## ")[0] ?? "";
  const rows = chapter.split("\n").filter((line) => /^\| [a-z]/.test(line));
  return rows
    .map((row) => row.split("|").map((cell) => cell.trim()))
    .map(([, attack = "", , proof = ""]) => [attack, proof] as const)
    .filter(([attack]) => attack !== "attack");
}

/** What a row names that no file of tests is; the whole row when it names none. */
function unproved(proof: string): readonly string[] {
  const named = [...proof.matchAll(/`([\w/-]+)`/g)].map(([, name = ""]) => name);
  const path = (name: string) => (name.startsWith("tests/") ? name : `apps/server/src/${name}`);
  const missing = named.filter((name) => !existsSync(`${root}${path(name)}.test.ts`));
  return named.length === 0 ? [proof] : missing;
}

test("every defence is proved by tests that are there", () => {
  const rows = proofs(readFileSync(`${root}THREAT_MODEL.md`, "utf8"));
  expect(rows.length).toBeGreaterThan(10);
  expect(rows.filter(([, proof]) => unproved(proof).length > 0)).toEqual([]);
});

test("a defence without a test, or with one that is gone, is caught", () => {
  const text = "## What is defended\n| a | b | |\n| c | d | `tests/wire/gone` |\n## Rest\n";
  expect(proofs(text).map(([, proof]) => unproved(proof).length)).toEqual([1, 1]);
});
