/** The steps of a check, each a command that passes or fails, and how they are run and told. */
import { spawnSync } from "node:child_process";
import { root } from "./setup.mjs";

/**
 * A step: what it is called, and the Node script that does it with its arguments.
 * @typedef {{ name: string, script: string, args: readonly string[] }} Step
 */

const biome = "node_modules/@biomejs/biome/bin/biome";
const tsc = "node_modules/typescript/bin/tsc";
/** The test runner's own script. */
export const vitest = "node_modules/vitest/vitest.mjs";

/** Format and lint, then types. @type {readonly Step[]} */
export const staticChecks = [
  { name: "format and lint", script: biome, args: ["ci", "--error-on-warnings"] },
  { name: "types", script: tsc, args: ["-b"] },
];

/** Everything that needs no server and no browser. @type {readonly Step[]} */
export const checks = [
  ...staticChecks,
  {
    name: "unit, architecture and style tests",
    script: vitest,
    args: ["run", "--project", "unit", "--project", "page"],
  },
];

/** Runs every step, also after one failed, and ends with a line for each. True when all passed.
 * @param {readonly Step[]} steps */
export function runSteps(steps) {
  const results = steps.map((step) => {
    const startedAt = performance.now();
    const passed = runStep(step);
    return { name: step.name, passed, seconds: (performance.now() - startedAt) / 1000 };
  });
  for (const { name, passed, seconds } of results) {
    console.log(`${passed ? "passed" : "FAILED"}  ${name} (${seconds.toFixed(1)} s)`);
  }
  return results.every((result) => result.passed);
}

/** Runs one step with its output shown; true when it passed.
 * @param {Step} step */
export function runStep(step) {
  console.log(`\n== ${step.name}`);
  const run = spawnSync(process.execPath, [step.script, ...step.args], {
    cwd: root,
    stdio: "inherit",
  });
  return run.status === 0;
}
