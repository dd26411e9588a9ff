/** A server whose wall clock is set back by an hour when SIGUSR2 comes. */
import { pathToFileURL } from "node:url";
import { serverEntry } from "../support/server.ts";

const { now } = Date;
const hourMs = 3_600_000;

process.on("SIGUSR2", () => {
  Date.now = () => now() - hourMs;
  process.stderr.write("the clock is set back\n");
});
await import(pathToFileURL(serverEntry).href);
