/** `npm start`: sets up what is missing and runs the server in this very process. */
import { requireNode, root, setUp } from "./setup.mjs";

requireNode();
process.chdir(root);
setUp();

// One process, so that a signal or a kill reaches the server itself and leaves nothing running.
const { register } = await import("tsx/esm/api");
register();
await import("../apps/server/src/main.ts");
