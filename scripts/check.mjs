/**
 * `npm run check`: format, lint, types, unit tests, architecture and style. Says which step failed.
 */
import { checks, runSteps } from "./steps.mjs";

process.exitCode = runSteps(checks) ? 0 : 1;
