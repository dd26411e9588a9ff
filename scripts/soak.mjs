/** `npm run soak`: the long run of what the suite does in short; see tests/soak/main.ts. */
import { spawnSync } from "node:child_process";
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { root, setUp } from "./setup.mjs";

setUp();
mkdirSync(join(root, ".halflap"), { recursive: true, mode: 0o700 }); // what it remembers lies there
const words = ["--import", "tsx", "tests/soak/main.ts", ...process.argv.slice(2)];
const run = spawnSync(process.execPath, words, { cwd: root, stdio: "inherit" });
process.exitCode = run.status ?? 1;
