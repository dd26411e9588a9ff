/** A Redis of a test's own on a port that nobody else has, keeping nothing, gone afterwards. */
import { spawn } from "node:child_process";
import { once } from "node:events";
import { connect } from "node:net";
import { tmpdir } from "node:os";
import { findStores, storesAdvice } from "../../scripts/stores.mjs";
import { freePort } from "./postgres.ts";

export type TestRedis = {
  /** redis://127.0.0.1:port */
  readonly address: string;
  /** It stands still, until `thaw`; its connections stay. */
  freeze(): void;
  thaw(): void;
  /** SIGKILL; resolves when it is gone. */
  kill(): Promise<void>;
  /** Starts it again, on the same port. */
  start(): Promise<void>;
};

/** Starts one. Throws with what to install where there is none. */
export async function startRedis(): Promise<TestRedis> {
  const program = findStores().redis;
  if (program === undefined) throw new Error(storesAdvice());
  const port = await freePort();
  const options = ["--port", `${port}`, "--bind", "127.0.0.1", "--save", "", "--appendonly", "no"];
  const begin = async () => {
    const child = spawn(program, options, { cwd: tmpdir(), stdio: "ignore" });
    while (!(await isOpen(port))) {
      if (child.exitCode !== null) throw new Error(`Redis ended with ${child.exitCode}`);
    }
    return child;
  };
  let running = await begin();
  process.once("exit", () => running.kill("SIGKILL"));
  return {
    address: `redis://127.0.0.1:${port}`,
    freeze: () => void running.kill("SIGSTOP"),
    thaw: () => void running.kill("SIGCONT"),
    async kill() {
      if (running.exitCode !== null || running.signalCode !== null) return;
      const gone = once(running, "exit");
      running.kill("SIGKILL");
      await gone;
    },
    async start() {
      running = await begin();
    },
  };
}

/** Whether somebody listens there by now; asked again a little later when not. */
function isOpen(port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = connect(port, "127.0.0.1");
    socket.once("connect", () => {
      socket.destroy();
      resolve(true);
    });
    socket.once("error", () => setTimeout(() => resolve(false), 20));
  });
}
