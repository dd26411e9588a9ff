/**
 * `npm run check`: format, lint, types, unit tests, architecture and style. Says which step failed.
 */
import { buildKernel } from "./setup.mjs";
import { checks, runSteps } from "./steps.mjs";

buildKernel();
process.exitCode = runSteps(checks) ? 0 : 1;
