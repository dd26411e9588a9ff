/** `npm test`: sets up, runs every check and every test, and ends with `N passed, N failed`. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromiumAdvice, findOrInstallChromium } from "./chromium.mjs";
import { requireNode, setUp } from "./setup.mjs";
import { runStep, staticChecks } from "./steps.mjs";
import { findOrInstallStores, storesAdvice } from "./stores.mjs";
import { addUp, runBrowserTests, runTests } from "./tally.mjs";

requireNode();
setUp();

const chromium = findOrInstallChromium();
if (chromium === undefined) {
  console.error(chromiumAdvice());
  process.exit(1);
}
process.env.HALFLAP_CHROMIUM = chromium;

const stores = findOrInstallStores();
if (stores.postgres === undefined || stores.redis === undefined) {
  console.error(storesAdvice());
  process.exit(1);
}

/** Parts of file names: `npm test -- lanes door` runs only the tests in files named so. */
const names = process.argv.slice(2);
const scratch = mkdtempSync(join(tmpdir(), "halflap-test-"));
try {
  const total = addUp([
    ...(names.length === 0 ? staticChecks.map(tallyStep) : []),
    runTests({ projects: ["unit", "page"], names, scratch }),
    runTests({ projects: ["laws"], names, scratch }),
    runTests({ projects: ["stores"], names, scratch }),
    runTests({ projects: ["wire"], names, scratch }),
    runBrowserTests({ names, scratch }),
  ]);
  const ran = total.passed + total.failed;
  if (ran === 0) console.error("Nothing ran.");
  process.exitCode = total.failed === 0 && ran > 0 ? 0 : 1;
  console.log(`\n${total.passed} passed, ${total.failed} failed`);
} finally {
  rmSync(scratch, { recursive: true, force: true });
}

/** @param {import("./steps.mjs").Step} step */
function tallyStep(step) {
  return runStep(step) ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 };
}
