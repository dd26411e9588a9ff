/**
 * A server that is wrong in one place, at its store: HALFLAP_TEST_BROKEN says in which. The checker
 * must catch each.
 */
import { readConfig } from "@halflap/server/config";
import { makeLog } from "@halflap/server/log";
import { startServer } from "@halflap/server/server";
import { brokenLog } from "./broken-logs.ts";

const log = makeLog(
  (line) => process.stderr.write(line),
  () => new Date(),
);
const server = await startServer(readConfig(process.env), log, (store) => {
  return { ...store, log: brokenLog(store.log, process.env.HALFLAP_TEST_BROKEN ?? "") };
});
process.stdout.write(`Halflap is on ${server.address}\n`);
