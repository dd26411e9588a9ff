/**
 * `npm run bench`: measures the figures we promise, each beside a baseline taken in the same run.
 */
import { spawnSync } from "node:child_process";
import { chromiumAdvice, findOrInstallChromium } from "./chromium.mjs";
import { root, setUp } from "./setup.mjs";

setUp();
const chromium = findOrInstallChromium();
if (chromium === undefined) {
  console.error(chromiumAdvice());
  process.exit(1);
}

/** Names of benches, such as `npm run bench -- check`; none means all. */
const names = process.argv.slice(2);
const run = spawnSync(process.execPath, ["--import", "tsx", "tests/bench/main.ts", ...names], {
  cwd: root,
  stdio: "inherit",
  env: { ...process.env, HALFLAP_CHROMIUM: chromium },
});
process.exitCode = run.status ?? 1;
