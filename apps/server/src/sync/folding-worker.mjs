/** The entry of the thread that folds: it reads TypeScript however the program was started. */
import { register } from "tsx/esm/api";

register();
await import("./folding-worker.ts");
