/**
 * A server whose store takes 300 ms to read a document, or HALFLAP_TRIAL_LATE_MS. With
 * HALFLAP_TRIAL_EMPTY=yes it lets people in before it has: the variant that a check must catch.
 */
import { readConfig } from "@halflap/server/config";
import { makeLog } from "@halflap/server/log";
import { rowId, type UpdateLog } from "@halflap/server/log-port";
import type { Store } from "@halflap/server/ports";
import { startServer } from "@halflap/server/server";

const lateMs = Number(process.env.HALFLAP_TRIAL_LATE_MS ?? 300);

const log = makeLog(
  (line) => process.stderr.write(line),
  () => new Date(),
);
const server = await startServer(readConfig(process.env), log, slow);
process.stdout.write(`Halflap is on ${server.address}\n`);

function slow(store: Store): Store {
  const isHasty = process.env.HALFLAP_TRIAL_EMPTY === "yes";
  const load: UpdateLog["load"] = async (key) => {
    if (isHasty) return { rows: [], bindings: [], head: rowId(0) };
    await new Promise((resolve) => setTimeout(resolve, lateMs));
    return store.log.load(key);
  };
  return { ...store, log: { ...store.log, load } };
}
