/**
 * A real server process for tests: started on a free port, stopped or killed, started again on the
 * same store.
 */
import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

/** The entry of the server itself. */
export const serverEntry = fileURLToPath(new URL("../../apps/server/src/main.ts", import.meta.url));

export type TestServer = {
  /** http://127.0.0.1:port, which is also the one origin that it accepts. */
  readonly address: string;
  readonly folder: string;
  /** The SQLite file. */
  readonly file: string;
  readonly pid: number;
  /** What it has written to stderr so far. */
  logs(): string;
  /** Resolves when stderr says something of the kind. */
  logged(wanted: RegExp): Promise<void>;
  /** The exit code, once it ended by itself. */
  readonly ended: Promise<number | null>;
  /** Whether the process runs. */
  isAlive(): boolean;
  /** SIGTERM; resolves with the exit code. */
  stop(): Promise<number | null>;
  /** SIGKILL; resolves when it is gone. The store stays. */
  kill(): Promise<void>;
};

export type StartOptions = {
  /** An existing store's folder; a new one otherwise. */
  readonly folder?: string;
  readonly variables?: Readonly<Record<string, string>>;
  /** Another entry than the server's own: a variant that a check must catch. */
  readonly entry?: string;
};

/** Starts a server and waits for its address. Rejects with its logs when it ends instead. */
export async function startTestServer(options: StartOptions = {}): Promise<TestServer> {
  const folder = options.folder ?? mkdtempSync(join(tmpdir(), "halflap-"));
  const entry = options.entry ?? serverEntry;
  const reading = entry.endsWith(".ts") ? ["--import", "tsx"] : [];
  const child = spawn(process.execPath, [...reading, entry], {
    env: {
      ...process.env,
      HALFLAP_PORT: "0",
      HALFLAP_HOST: "127.0.0.1",
      HALFLAP_DATA: folder,
      ...options.variables,
    },
    stdio: ["ignore", "pipe", "pipe"],
  });
  let logs = "";
  child.stderr.on("data", (chunk: Buffer) => {
    logs += chunk.toString();
  });
  const address = await addressFrom(child, () => logs);
  const gone = once(child, "exit");
  return {
    address,
    folder,
    file: join(folder, "boards.sqlite"),
    pid: child.pid ?? 0,
    logs: () => logs,
    logged: (wanted) =>
      new Promise((resolve) => {
        const look = () => {
          if (wanted.test(logs)) resolve();
          else child.stderr.once("data", look);
        };
        look();
      }),
    ended: gone.then(() => child.exitCode),
    isAlive: () => child.exitCode === null && child.signalCode === null,
    async stop() {
      child.kill("SIGTERM");
      await gone;
      return child.exitCode;
    },
    async kill() {
      child.kill("SIGKILL");
      await gone;
    },
  };
}

/** Stops a server if it still runs, and removes its store. */
export async function removeTestServer(server: TestServer): Promise<void> {
  if (server.isAlive()) await server.kill();
  rmSync(server.folder, { recursive: true, force: true });
}

async function addressFrom(child: ChildProcess, logs: () => string): Promise<string> {
  return new Promise((resolve, reject) => {
    let out = "";
    child.stdout?.on("data", (chunk: Buffer) => {
      out += chunk.toString();
      const address = /^Halflap is on (\S+)$/m.exec(out)?.[1];
      if (address !== undefined) resolve(address);
    });
    child.once("exit", (code) => reject(new Error(`the server ended with ${code}: ${logs()}`)));
  });
}
