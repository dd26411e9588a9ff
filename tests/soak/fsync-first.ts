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

/** Traces a server through 50 edits, said to be saved one after another. */
export async function traceSaved(entry = serverEntry): Promise<FsyncFirst> {
  const folder = mkdtempSync(join(tmpdir(), "halflap-trace-"));
  const trace = join(folder, "trace.txt");
  const words = ["-f", "-y", "-xx", "-s", "64", "-e", `trace=${calls}`, "-o", trace];
  const child = spawn("strace", [...words, process.execPath, "--import", "tsx", entry], {
    env: { ...process.env, HALFLAP_PORT: "0", HALFLAP_DATA: join(folder, "store") },
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
  const earlyWithoutSyncs = readTrace(lines.filter((line) => !sync.test(line))).early;
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

const sync = /\bf(data)?sync\(/;

function readTrace(lines: readonly string[]): Omit<FsyncFirst, "earlyWithoutSyncs"> {
  let isSynced = true;
  let said = 0;
  let syncs = 0;
  let early = 0;
  for (const line of lines) {
    const isLog = line.includes(`${hexed("sqlite-wal")}>`);
    if (isLog && line.includes("pwrite64(")) isSynced = false;
    else if (isLog && sync.test(line)) {
      isSynced = true;
      syncs += 1;
    } else if (saved.test(line)) {
      said += 1;
      if (!isSynced) early += 1;
    }
  }
  return { said, syncs, early };
}

function hexed(text: string): string {
  return [...text].map((sign) => `\\x${sign.charCodeAt(0).toString(16)}`).join("");
}
