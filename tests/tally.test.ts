/** The count at the end of `npm test` must never call a failure a pass. */
import { describe, expect, test } from "vitest";
import { addUp, browserTally, settle, unitTally } from "../scripts/tally.mjs";

const file = (status: string, results: readonly string[]) => ({
  status,
  assertionResults: results.map((result) => ({ status: result })),
});

describe("a unit report", () => {
  const report = { numPassedTests: 2, numFailedTests: 0, numPendingTests: 0, numTodoTests: 0 };
  test("counts passes and failures", () => {
    const failed = { ...report, numFailedTests: 1, testResults: [file("failed", ["failed"])] };
    expect(unitTally(failed)).toEqual({ passed: 2, failed: 1 });
  });
  test("counts a file that could not be read as one failure", () => {
    const broken = { ...report, testResults: [file("failed", []), file("passed", ["passed"])] };
    expect(unitTally(broken)).toEqual({ passed: 2, failed: 1 });
  });
  test("counts skipped tests as failures", () => {
    const skipped = { ...report, numPendingTests: 1, numTodoTests: 1, testResults: [] };
    expect(unitTally(skipped)).toEqual({ passed: 2, failed: 2 });
  });
});

describe("a browser report", () => {
  test("counts skipped, flaky and homeless errors as failures", () => {
    const stats = { expected: 3, unexpected: 1, flaky: 1, skipped: 1 };
    expect(browserTally({ stats, errors: [{}] })).toEqual({ passed: 3, failed: 4 });
  });
});

describe("a runner", () => {
  test("that broke down without a report fails", () => {
    expect(settle(1, unitTally(undefined), [])).toEqual({ passed: 0, failed: 1 });
    expect(settle(null, browserTally(undefined), [])).toEqual({ passed: 0, failed: 1 });
  });
  test("that ran nothing fails, unless only some tests were asked for", () => {
    expect(settle(0, { passed: 0, failed: 0 }, [])).toEqual({ passed: 0, failed: 1 });
    expect(settle(0, { passed: 0, failed: 0 }, ["door"])).toEqual({ passed: 0, failed: 0 });
  });
  test("that failed after its tests passed fails", () => {
    expect(settle(1, { passed: 4, failed: 0 }, [])).toEqual({ passed: 4, failed: 1 });
    expect(settle(1, { passed: 4, failed: 2 }, [])).toEqual({ passed: 4, failed: 2 });
  });
});

test("tallies add up", () => {
  const sum = addUp([
    { passed: 1, failed: 0 },
    { passed: 2, failed: 3 },
  ]);
  expect(sum).toEqual({ passed: 3, failed: 3 });
});
