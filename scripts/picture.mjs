/** `npm run picture`: takes the picture in README.md again, from the demo in a real browser. */
import { spawnSync } from "node:child_process";
import { chromiumAdvice, findOrInstallChromium } from "./chromium.mjs";
import { root, setUp } from "./setup.mjs";

setUp();
const chromium = findOrInstallChromium();
if (chromium === undefined) {
  console.error(chromiumAdvice());
  process.exit(1);
}

const code = `
  import { takePicture } from "./tests/support/picture.ts";
  await takePicture("tests/pictures/board.png");
`;
const args = ["--import", "tsx", "--input-type=module", "--eval", code];
const run = spawnSync(process.execPath, args, {
  cwd: root,
  stdio: "inherit",
  env: { ...process.env, HALFLAP_CHROMIUM: chromium },
});
process.exitCode = run.status ?? 1;
