/**
 * Whether the log is on the disk before "saved" is said, seen from the kernel's side: the server
 * runs under strace, and between the last write to SQLite's log and each frame that says "saved"
 * there must be a sync of it. Needs strace, so it is no part of the suite.
 */
import { spawn, spawnSync } from "node:child_process";
import { once } from "node:events";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { savedMessage } from "@halflap/wire/messages";
import { Visitor } from "../support/browser-session.ts";
import { RawClient } from "../support/raw-client.ts";
import { say } from "../support/say.ts";
import { serverEntry } from "../support/server.ts";

export type FsyncFirst = {
  /** Frames that said "saved". */
  readonly said: number;
  /** Syncs of the log. */
  readonly syncs: number;
  /** Frames said while something written to the log was not synced. */
  readonly early: number;
  /** The same with every sync struck from the trace: what a server that never syncs would show. */
  readonly earlyWithoutSyncs: number;
};

const edits = 50;
const calls = "write,writev,sendto,sendmsg,pwrite64,fsync,fdatasync";

/** Whether the tool that this needs is there. */
export function hasStrace(): boolean {
  return spawnSync("strace", ["-V"]).status === 0;
}

/** A server whose syncs do as HALFLAP_TRIAL_SYNC says: the variants that checks must catch. */
export const trialDiskEntry = fileURLToPath(new URL("./trial-disk-server.ts", import.meta.url));

/**
 * Traces a server through 50 edits, said to be saved one after another. Each sync of an edit takes
 * 200 ms longer than it would, so that whoever does not wait for it is seen to be early.
 */
export async function traceSaved(
  entry = serverEntry,
  variables: Readonly<Record<string, string>> = {},
): Promise<FsyncFirst> {
  const folder = mkdtempSync(join(tmpdir(), "halflap-trace-"));
  const trace = join(folder, "trace.txt");
  const watching = ["-f", "-y", "-xx", "-s", "64", "-e", `trace=${calls}`, "-o", trace];
  const words = [...watching, "-e", "inject=fdatasync:delay_enter=200000"];
  const child = spawn("strace", [...words, process.execPath, "--import", "tsx", entry], {
    env: { ...process.env, HALFLAP_PORT: "0", HALFLAP_DATA: join(folder, "store"), ...variables },
    stdio: ["ignore", "pipe", "ignore"],
  });
  const gone = once(child, "exit");
  try {
    await edit(new Visitor(await addressFrom(child.stdout)));
  } finally {
    process.kill(tracedIn(trace), "SIGTERM"); // strace itself takes no signals meanwhile
    await gone;
  }
  const lines = readFileSync(trace, "utf8").split("\n");
  rmSync(folder, { recursive: true });
  const earlyWithoutSyncs = readTrace(lines.filter((line) => !begun.test(line))).early;
  return { ...readTrace(lines), earlyWithoutSyncs };
}

/** The server's process: each line of the trace begins with one, the first with the first. */
function tracedIn(trace: string): number {
  return Number(/^\d+/.exec(readFileSync(trace, "utf8"))?.[0]);
}

async function edit(leader: Visitor): Promise<void> {
  const { board } = await leader.makeBoard();
  const client = await RawClient.synced(leader, board, "board");
  for (let i = 1; i <= edits; i += 1) {
    say(client, `k${i}`, i);
    await client.until((frame) => frame.kind === "saved" && frame.decided >= i);
  }
  await client.close();
}

async function addressFrom(out: NodeJS.ReadableStream): Promise<string> {
  let text = "";
  for await (const chunk of out) {
    text += String(chunk);
    const address = /^Halflap is on (\S+)$/m.exec(text)?.[1];
    if (address !== undefined) return address;
  }
  throw new Error("the server ended before it listened");
}

/**
 * A small frame of a server (RFC 6455, section 5.2): 82, the length, and here our own number, which
 * stands in the same buffer or in the next one.
 */
const saved = new RegExp(
  `"\\\\x82\\\\x[0-7][0-9a-f](", iov_len=2}, {iov_base=")?\\\\x${savedMessage.toString(16)}`,
);

/** A sync runs in a thread of its own, which begins each line: others call before it is done. */
const begun = /^(\d+) +f(data)?sync\(/;
const resumed = /^(\d+) +<\.\.\. f(data)?sync resumed>/;
const succeeded = / = 0( \(DELAYED\))?$/;

/**
 * Reads a trace line by line. A sync counts from where it is done, and for what was written before
 * it began.
 */
export function readTrace(lines: readonly string[]): Omit<FsyncFirst, "earlyWithoutSyncs"> {
  const log = `${hexed("sqlite-wal")}>`;
  /** How much was written when the sync began that a thread is in. */
  const underway = new Map<string, number>();
  let [written, synced, said, syncs, early] = [0, 0, 0, 0, 0];
  for (const line of lines) {
    const [, starting] = begun.exec(line) ?? [];
    if (line.includes(log) && line.includes("pwrite64(")) written += 1;
    if (line.includes(log) && starting !== undefined) underway.set(starting, written);
    const thread = starting ?? resumed.exec(line)?.[1] ?? "";
    const reached = underway.get(thread);
    if (reached !== undefined && !line.endsWith("<unfinished ...>")) {
      underway.delete(thread);
      if (succeeded.test(line)) [synced, syncs] = [Math.max(synced, reached), syncs + 1];
    }
    if (!saved.test(line)) continue;
    said += 1;
    if (synced < written) early += 1;
  }
  return { said, syncs, early };
}

function hexed(text: string): string {
  return [...text].map((sign) => `\\x${sign.charCodeAt(0).toString(16)}`).join("");
}
