/**
 * Runs the test runners and counts what they report; a runner that breaks down counts as a failure.
 */
import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "./setup.mjs";
import { vitest } from "./steps.mjs";

/** @typedef {{ passed: number, failed: number }} Tally */

/** @param {readonly Tally[]} tallies @returns {Tally} */
export function addUp(tallies) {
  return {
    passed: tallies.reduce((sum, tally) => sum + tally.passed, 0),
    failed: tallies.reduce((sum, tally) => sum + tally.failed, 0),
  };
}

/** Runs projects of vitest.config.ts.
 * @param {{ projects: readonly string[], names: readonly string[], scratch: string }} options
 * @returns {Tally} */
export function runTests({ projects, names, scratch }) {
  const report = join(scratch, `${projects.join("-")}.json`);
  console.log(`\n== ${projects.join(" and ")} tests`);
  const status = runNode(vitest, [
    "run",
    ...projects.flatMap((project) => ["--project", project]),
    ...names,
    ...(names.length > 0 ? ["--passWithNoTests"] : []),
    "--reporter=dot",
    "--reporter=json",
    `--outputFile.json=${report}`,
  ]);
  return settle(status, unitTally(readReport(report)), names);
}

/** Runs the browser tests of playwright.config.ts.
 * @param {{ names: readonly string[], scratch: string }} options
 * @returns {Tally} */
export function runBrowserTests({ names, scratch }) {
  const report = join(scratch, "browser.json");
  console.log("\n== browser tests");
  process.env.PLAYWRIGHT_JSON_OUTPUT_NAME = report;
  const status = runNode("node_modules/@playwright/test/cli.js", [
    "test",
    ...names,
    ...(names.length > 0 ? ["--pass-with-no-tests"] : []),
    "--reporter=list,json",
    `--output=${join(scratch, "browser")}`,
  ]);
  return settle(status, browserTally(readReport(report)), names);
}

/** Counts a vitest report. A file that could not even be read, and a skipped test, count as failed.
 * @param {any} report @returns {Tally} */
export function unitTally(report) {
  if (report === undefined) return { passed: 0, failed: 0 };
  const broken = report.testResults.filter(
    (/** @type {any} */ file) =>
      file.status === "failed" &&
      !file.assertionResults.some((/** @type {any} */ result) => result.status === "failed"),
  ).length;
  const skipped = report.numPendingTests + report.numTodoTests;
  return { passed: report.numPassedTests, failed: report.numFailedTests + skipped + broken };
}

/** Counts a Playwright report. Skipped and flaky tests, and errors outside a test, count as failed.
 * @param {any} report @returns {Tally} */
export function browserTally(report) {
  if (report === undefined) return { passed: 0, failed: 0 };
  const { expected, unexpected, flaky, skipped } = report.stats;
  return { passed: expected, failed: unexpected + flaky + skipped + report.errors.length };
}

/** A runner that failed, or found nothing to run, without saying which test: one failure.
 * @param {number | null} status @param {Tally} tally @param {readonly string[]} names
 * @returns {Tally} */
export function settle(status, tally, names) {
  const isEmpty = tally.passed + tally.failed === 0 && names.length === 0;
  const isSilent = status !== 0 && tally.failed === 0;
  return isEmpty || isSilent ? { ...tally, failed: tally.failed + 1 } : tally;
}

/** @param {string} script @param {readonly string[]} args */
function runNode(script, args) {
  return spawnSync(process.execPath, [script, ...args], { cwd: root, stdio: "inherit" }).status;
}

/** @param {string} path @returns {any} the report, or undefined when the runner wrote none */
function readReport(path) {
  try {
    return JSON.parse(readFileSync(path, "utf8"));
  } catch {
    return undefined;
  }
}
