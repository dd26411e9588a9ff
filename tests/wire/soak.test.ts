/**
 * `npm run soak` in small portions: its parts run and find nothing, and it goes on where it was.
 * Connects, restarts and faults have tests of their own; the trace of syncs needs a tool that not
 * every machine has.
 */
import { spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test, vi } from "vitest";
import { soakParts } from "../soak/parts.ts";
import { root } from "../support/sources.ts";

// Several processes a test, and a start costs seconds on a busy machine.
vi.setConfig({ testTimeout: 180_000, hookTimeout: 180_000 });

const elsewhere = ["connects", "restarts", "faults", "rolling", "fsync"];

test.each(soakParts.filter(({ name }) => !elsewhere.includes(name)))("$name", async (part) => {
  const { done, faults } = await part.run(7, true);
  expect(faults).toEqual([]);
  expect(done).toBeGreaterThan(0);
});

test("it prints seed and counts, and the next run goes on", async () => {
  const folder = mkdtempSync(join(tmpdir(), "halflap-soak-"));
  const words = ["schedules", "--minutes", "0.00001", "--seed", "40", "--state"];
  const first = await soak([...words, join(folder, "state.json")]);
  expect(first).toMatch(/^seed 40, /);
  expect(first).toMatch(/^schedules: seeds from 40, 200 schedules, \d+ edits/m);
  const second = await soak([...words, join(folder, "state.json")]);
  expect(second).toMatch(/^schedules: seeds from 240, 200 schedules/m);
  expect(second).toMatch(/^schedules: 400 of 1000000 schedules, 0 faults$/m);
  rmSync(folder, { recursive: true });
});

async function soak(words: readonly string[]): Promise<string> {
  const entry = ["--import", "tsx", "tests/soak/main.ts"];
  const child = spawn(process.execPath, [...entry, ...words], { cwd: root, stdio: "pipe" });
  let out = "";
  child.stdout.on("data", (chunk: Buffer) => {
    out += chunk.toString();
  });
  const [code] = await once(child, "close");
  expect(code).toBe(0);
  return out;
}
