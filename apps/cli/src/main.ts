/** The entry of `halflap`: one command, its text on the streams, its exit status. */
import { readFileSync } from "node:fs";
import { type Command, readCommandLine } from "./command-line.ts";
import { done, type Outcome, refused } from "./outcome.ts";
import { usage } from "./usage.ts";

// A reader that has seen enough (`halflap check x | head`) is no fault.
process.stdout.on("error", (fault: NodeJS.ErrnoException) => {
  if (fault.code !== "EPIPE") throw fault;
});

const command = readCommandLine(process.argv.slice(2));
const outcome = command.ok
  ? await run(command.value)
  : refused(command.error, "halflap --help shows what there is.");
process.stderr.write(outcome.err);
process.stdout.write(outcome.out);
process.exitCode = outcome.exit;

/**
 * Each command's code is loaded when it is wanted, so that a slip of the pen is answered at once.
 */
async function run(command: Command): Promise<Outcome> {
  switch (command.kind) {
    case "help":
      return done(usage);
    case "version":
      return done(`${version()}\n`);
    case "check": {
      const { runCheck } = await import("./check-command.ts");
      return runCheck(command, process.stdin);
    }
    case "fit": {
      const { runFit } = await import("./fit/fit-command.ts");
      return runFit(command, process.stdin);
    }
    case "copy": {
      const { runCopy } = await import("./copy-command.ts");
      return runCopy(command.store, command.board);
    }
    default: {
      const { runStoreCommand } = await import("./store-command.ts");
      return runStoreCommand(command, Date.now(), process.env);
    }
  }
}

function version(): string {
  const manifest: unknown = JSON.parse(
    readFileSync(new URL("../package.json", import.meta.url), "utf8"),
  );
  const isKnown = typeof manifest === "object" && manifest !== null && "version" in manifest;
  return isKnown ? `halflap ${String(manifest.version)}` : "halflap";
}
