/**
 * The server's entry: settings in, one line for each address out, and a stop that loses nothing.
 */
import { BadVariable, readConfig } from "./config.ts";
import { type Log, makeLog } from "./ops/log.ts";
import { endWhenBroken, stopOnSignal } from "./ops/stop.ts";

const makeOwnLog = (format?: "json" | "text"): Log =>
  makeLog(
    (line) => process.stderr.write(line),
    () => new Date(),
    format,
  );

try {
  const config = readConfig(process.env);
  await start(config, makeOwnLog(config.logFormat));
} catch (fault) {
  if (fault instanceof BadVariable) process.stderr.write(`${fault.message}\n`);
  else makeOwnLog().fault("start-failed", fault);
  // Once the line is out: whatever was opened must not keep a process that serves nobody.
  process.stderr.write("", () => process.exit(1));
}

/** What the server is made of is loaded once the settings are known to be good. */
async function start(config: ReturnType<typeof readConfig>, log: Log): Promise<void> {
  const { startServer } = await import("./server.ts");
  const server = await startServer(config, log);
  stopOnSignal(server, log);
  endWhenBroken(server, log);
  const { address, metricsAddress } = server;
  log.info("started", { address, ...(metricsAddress && { metrics: metricsAddress }) });
  process.stdout.write(`Halflap is on ${server.address}\n`);
  for (const address of server.networkAddresses) {
    process.stdout.write(`In this network: ${address}\n`);
  }
}
