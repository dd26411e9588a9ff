/** What a full board weighs in a server's memory while two have it open. */
import { closePairs, openPairs } from "./pairs.ts";
import type { Target } from "./target.ts";

const settleMs = 1_000;

/** Bytes for each document of a full board's size, with the two sockets that hold it open. */
export async function bytesOfFullBoard(target: Target): Promise<number> {
  const { offer } = target;
  const before = await target.usage();
  const quiet = { edit: () => undefined, saved: () => undefined };
  const pairs = await openPairs(offer, offer.large, quiet);
  await new Promise((resolve) => setTimeout(resolve, settleMs));
  const after = await target.usage();
  await closePairs(pairs);
  return (after.bytes - before.bytes) / offer.large.length;
}
