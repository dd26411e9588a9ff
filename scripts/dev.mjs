/** `npm run dev`: the server restarting and the page reloading as sources change. */
import { spawn } from "node:child_process";
import { join } from "node:path";
import { buildKernel, installPackages, requireNode, root } from "./setup.mjs";

const pageOrigin = "http://localhost:5173";

requireNode();
installPackages();
buildKernel();

const server = ["--watch", "--import", "tsx", "apps/server/src/main.ts"];
const page = [join(root, "node_modules/vite/bin/vite.js"), "--strictPort"];
const children = [
  spawnNode(server, root, { HALFLAP_ORIGIN: process.env.HALFLAP_ORIGIN ?? pageOrigin }),
  spawnNode(page, join(root, "apps/web"), {}),
];

for (const child of children) {
  // When one ends, the other has no use any more.
  child.on("exit", (code) => {
    stop();
    process.exitCode = code ?? 1;
  });
}
process.on("SIGTERM", stop);
// A terminal sends SIGINT to the children too; this process only has to outlive them.
process.on("SIGINT", () => {});

function stop() {
  for (const child of children) child.kill("SIGTERM");
}

/** @param {readonly string[]} args @param {string} cwd @param {NodeJS.ProcessEnv} more */
function spawnNode(args, cwd, more) {
  return spawn(process.execPath, args, { cwd, stdio: "inherit", env: { ...process.env, ...more } });
}
