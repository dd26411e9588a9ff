/** A server under load, in a process of its own: what it offers, and what it is asked. */
import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { fileURLToPath } from "node:url";

/** A document with somebody who writes and somebody who hears. */
export type Shared = {
  readonly path: string; // of its socket, with a leading slash
  readonly writerCookie: string;
  readonly hearerCookie: string;
};

export type Offer = {
  /** ws://127.0.0.1:port */
  readonly address: string;
  /** Where those who hear sit, when that is another node of the same store. */
  readonly hearersAt?: string;
  /** Whether it says something to whoever has come in. */
  readonly greets: boolean;
  /** Sent as the socket's origin. */
  readonly origin: string;
  /** Documents to warm up with, and those to measure: three for each board. */
  readonly warm: readonly Shared[];
  readonly measured: readonly Shared[];
  /** Documents of a usual full board's size that nobody has opened yet. */
  readonly large: readonly Shared[];
};

export type Usage = {
  /** Processor seconds since the start, before and after everything unused was collected. */
  readonly cpuBefore: number;
  readonly cpuAfter: number;
  /** Bytes on the heap and in buffers after that. */
  readonly bytes: number;
};

export type Target = {
  readonly offer: Offer;
  usage(): Promise<Usage>;
  end(): Promise<void>;
};

type TargetOptions = {
  readonly variables?: Readonly<Record<string, string>>;
  /** Whether it makes no documents of its own. */
  readonly isEmpty?: boolean;
};

/** Starts an entry beside this file and waits for its offer. */
export async function startTarget(
  entry: "ours" | "reference" | "broadcast",
  { variables = {}, isEmpty = false }: TargetOptions = {},
): Promise<Target> {
  const file = fileURLToPath(new URL(`./${entry}.ts`, import.meta.url));
  const profiled = process.env.HALFLAP_BENCH_PROFILE === entry ? ["--cpu-prof"] : [];
  const flags = ["--expose-gc", ...profiled, "--import", "tsx"];
  const child = spawn(process.execPath, [...flags, file, ...(isEmpty ? ["empty"] : [])], {
    env: { ...process.env, ...variables },
    stdio: ["ignore", "inherit", "inherit", "ipc"],
  });
  const ended = once(child, "exit").then(() => {
    throw new Error(`the server "${entry}" ended before it was asked to`);
  });
  ended.catch(() => undefined);
  const told = async () => (await Promise.race([once(child, "message"), ended]))[0] as unknown;
  const offer = (await told()) as Offer;
  return {
    offer,
    async usage() {
      child.send("usage");
      return (await told()) as Usage;
    },
    end: () => endOf(child),
  };
}

async function endOf(child: ChildProcess): Promise<void> {
  const gone = once(child, "exit");
  child.send("end");
  await gone;
}
