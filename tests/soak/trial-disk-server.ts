/**
 * A server whose syncs of the log do as HALFLAP_TRIAL_SYNC says. "unwaited": they are said to be
 * done when they begin. "failing": they fail once SIGUSR2 has come.
 */
import fs from "node:fs";
import { syncBuiltinESMExports } from "node:module";
import { pathToFileURL } from "node:url";
import { serverEntry } from "../support/server.ts";

const { fdatasync } = fs;
let isFailing = false;

function unwaited(file: number, done: fs.NoParamCallback): void {
  fdatasync(file, () => undefined);
  process.nextTick(done, null);
}

function failing(file: number, done: fs.NoParamCallback): void {
  if (isFailing) process.nextTick(done, new Error("EIO: the disk fails"));
  else fdatasync(file, done);
}

const variant = process.env.HALFLAP_TRIAL_SYNC === "unwaited" ? unwaited : failing;
Object.assign(fs, { fdatasync: variant });
syncBuiltinESMExports();
process.on("SIGUSR2", () => {
  isFailing = true;
  process.stderr.write("the disk fails from here on\n");
});
await import(pathToFileURL(serverEntry).href);
