/** A document's updates as one, once each of them and all together were found to be sound. */
import { decodeUpdate } from "./decoded-update.ts";
import { DocumentBytes } from "./document-bytes.ts";
import { Unreadable } from "./folding-port.ts";
import { KnownState } from "./known-state.ts";
import { placesAll } from "./placing.ts";

/**
 * The updates as one that says the same. Throws Unreadable when one of them can't be read, or when
 * something is missing that they build on: what was written after it would be seen by nobody.
 */
export function wholeOf(updates: readonly Uint8Array[]): Uint8Array {
  for (const [i, update] of updates.entries()) {
    if (decodeUpdate(update) !== undefined) continue;
    throw new Unreadable(`row ${i + 1} of ${updates.length} can't be read`);
  }
  const whole = merged(updates);
  const parts = decodeUpdate(whole);
  if (parts === undefined || !placesAll(parts, new KnownState(), () => undefined)) {
    throw new Unreadable("something is missing that a row builds on");
  }
  return whole;
}

function merged(updates: readonly Uint8Array[]): Uint8Array {
  try {
    return new DocumentBytes(updates).merged();
  } catch (fault) {
    throw new Unreadable("its rows can't be merged", { cause: fault });
  }
}
