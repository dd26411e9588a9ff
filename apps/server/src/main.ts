/**
 * The server's entry: settings in, one line for each address out, and a stop that loses nothing.
 */
import { BadVariable, readConfig } from "./config.ts";
import { makeLog } from "./ops/log.ts";
import { stopOnSignal } from "./ops/stop.ts";
import { startServer } from "./server.ts";

const log = makeLog(
  (line) => process.stderr.write(line),
  () => new Date(),
);

try {
  const server = await startServer(readConfig(process.env), log);
  stopOnSignal(server, log);
  log.info("started", { address: server.address });
  process.stdout.write(`Halflap is on ${server.address}\n`);
  for (const address of server.networkAddresses) {
    process.stdout.write(`In this network: ${address}\n`);
  }
} catch (fault) {
  if (fault instanceof BadVariable) process.stderr.write(`${fault.message}\n`);
  else log.fault("start-failed", fault);
  process.exitCode = 1;
}
