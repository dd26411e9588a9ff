/** Inside the thread that folds: one job in, one answer out. It opens and writes nothing. */
import { parentPort } from "node:worker_threads";
import { foldOf } from "./compaction.ts";
import { type FoldingKind, Unreadable } from "./folding-port.ts";
import { type PackedUpdates, unpacked } from "./packed-updates.ts";
import { replayedTitle } from "./replayed-title.ts";
import { wholeOf } from "./whole-document.ts";

export type FoldingJob = PackedUpdates & { readonly kind: FoldingKind };

export type FoldingAnswer =
  | { readonly kind: "ready" }
  | { readonly kind: "done"; readonly bytes: Uint8Array }
  | { readonly kind: "unreadable"; readonly why: string };

const port = parentPort;
if (port === null) throw new Error("this runs in a thread of its own");

const answer = (said: FoldingAnswer, passedOn: readonly ArrayBuffer[] = []) =>
  port.postMessage(said, [...passedOn]);

port.on("message", (job: FoldingJob) => {
  const bytes = result(job);
  // Copied to memory of its own, since what comes out may be a view of something larger.
  if (typeof bytes === "string") answer({ kind: "unreadable", why: bytes });
  else {
    const own = new Uint8Array(bytes);
    answer({ kind: "done", bytes: own }, [own.buffer]);
  }
});
answer({ kind: "ready" });

/** The bytes, or why there are none. */
function result(job: FoldingJob): Uint8Array | string {
  try {
    const updates = unpacked(job);
    if (job.kind === "title") return new TextEncoder().encode(replayedTitle(updates));
    return job.kind === "merge" ? wholeOf(updates) : foldOf(updates);
  } catch (fault) {
    if (fault instanceof Unreadable) return fault.message;
    throw fault;
  }
}
