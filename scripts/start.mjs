/** `npm start`: sets up what is missing and runs the server in this very process. */
import { requireNode, root, setUp } from "./setup.mjs";

const parentAtStart = process.ppid;
const orphanCheckMs = 250;

requireNode();
process.chdir(root);
setUp();

// One process, so that a signal or a kill reaches the server itself and leaves nothing running.
const { register } = await import("tsx/esm/api");
register();
await import("../apps/server/src/main.ts");
if (process.env.npm_lifecycle_event === "start") stopWithParent();

/**
 * npm runs this script in a shell and passes SIGTERM to that shell only, which ends without passing
 * it on. So whoever loses the shell has been asked to stop.
 */
function stopWithParent() {
  const watch = setInterval(() => {
    if (process.ppid === parentAtStart) return;
    clearInterval(watch);
    process.kill(process.pid, "SIGTERM");
  }, orphanCheckMs);
  watch.unref();
}
