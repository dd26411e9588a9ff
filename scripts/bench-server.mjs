/** `npm run bench:server`: our server under load, beside baselines in the same run. */
import { spawnSync } from "node:child_process";
import { root, setUp } from "./setup.mjs";

/** `npm run bench:server -- 1` for one round instead of three. */
const rounds = process.argv.slice(2, 3);
setUp();
const run = spawnSync(
  process.execPath,
  ["--import", "tsx", "tests/bench/server/main.ts", ...rounds],
  {
    cwd: root,
    stdio: "inherit",
  },
);
process.exitCode = run.status ?? 1;
