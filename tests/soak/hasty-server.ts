/** A server that says "saved" before it is: the variant that a test by kills must catch. */
import { readConfig } from "@halflap/server/config";
import { makeLog } from "@halflap/server/log";
import { rowId, type UpdateLog } from "@halflap/server/log-port";
import type { Store } from "@halflap/server/ports";
import { startServer } from "@halflap/server/server";

/** How long a row waits that was said to be stored. */
const lateMs = 100;

const log = makeLog(
  (line) => process.stderr.write(line),
  () => new Date(),
);
const server = await startServer(readConfig(process.env), log, hasty);
process.stdout.write(`Halflap is on ${server.address}\n`);

function hasty(store: Store): Store {
  let given = 0;
  const append: UpdateLog["append"] = async (rows) => {
    setTimeout(() => void store.log.append(rows), lateMs);
    return rows.map(() => {
      given += 1;
      return { kind: "stored", row: rowId(given) };
    });
  };
  return { ...store, log: { ...store.log, append } };
}
