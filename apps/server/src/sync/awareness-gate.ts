/**
 * The check of untrusted presence: one client id a socket, its own member, small, shallow, a clock
 * that walks.
 */
import type { MemberId } from "@halflap/board/board";
import { memberId } from "@halflap/board/talk";
import {
  awarenessBytesMax,
  awarenessClockMax,
  awarenessClockStepMax,
  awarenessDepthMax,
  awarenessEntriesMax,
  clientIdMax,
} from "@halflap/wire/limits";
import * as decoding from "lib0/decoding";
import type { PresenceEntry } from "./frames.ts";

/** What the socket may say, and what it has said. */
export type Speaker = {
  readonly member: string;
  readonly name: string;
  /** The one client id of this socket; undefined before it has named one. */
  readonly client: number | undefined;
  /** The clock of its last accepted entry; undefined before the first. */
  readonly clock: number | undefined;
  /** Whether the socket may take a client id that it has not got yet. */
  mayTake(client: number): boolean;
};

export type Heard = {
  /** The id that is the socket's from now on. */
  readonly client: number | undefined;
  /** What to pass on; undefined when there is nothing. */
  readonly entry: PresenceEntry | undefined;
};

/**
 * What of an awareness message is the speaker's own and fit to pass on. Entries under other ids are
 * left out without a word: the stock client repeats what it heard about others. A state that names
 * another member or another name is left out too.
 */
export function hear(bytes: Uint8Array, speaker: Speaker): Heard {
  const entries = readEntries(bytes);
  const client = speaker.client ?? ownIdIn(entries, speaker);
  const own = entries.find((entry) => entry.client === client);
  const isFit = own !== undefined && isClockFit(own, speaker.clock) && isOwnState(own, speaker);
  return { client, entry: isFit ? own : undefined };
}

/** A socket names its id by speaking about itself first: alone, as its member, or as nobody yet. */
function ownIdIn(entries: readonly PresenceEntry[], speaker: Speaker): number | undefined {
  const [only, second] = entries;
  if (only === undefined || second !== undefined || !speaker.mayTake(only.client)) return undefined;
  const isOwn = only.state === "{}" || (only.state !== "null" && isOwnState(only, speaker));
  return isOwn ? only.client : undefined;
}

/** The entries of an awareness message; none when it can't be read or holds too many. */
export function readEntries(bytes: Uint8Array): readonly PresenceEntry[] {
  try {
    const decoder = decoding.createDecoder(bytes);
    const count = decoding.readVarUint(decoder);
    if (count > awarenessEntriesMax) return [];
    const entries: PresenceEntry[] = [];
    for (let i = 0; i < count; i += 1) {
      const client = decoding.readVarUint(decoder);
      const clock = decoding.readVarUint(decoder);
      entries.push({ client, clock, state: decoding.readVarString(decoder) });
    }
    return decoding.hasContent(decoder) ? [] : entries;
  } catch {
    return []; // lib0 throws at the end of the bytes
  }
}

/** Who a state says that it is of; undefined for one that says nobody. */
export function memberIn({ state }: PresenceEntry): MemberId | undefined {
  const member = fieldOf(parsed(state), "member");
  return typeof member === "string" ? memberId(member) : undefined;
}

function isClockFit({ client, clock }: PresenceEntry, last: number | undefined): boolean {
  if (client > clientIdMax || clock > awarenessClockMax) return false;
  return last === undefined || (clock >= last && clock <= last + awarenessClockStepMax);
}

function isOwnState({ state }: PresenceEntry, { member, name }: Speaker): boolean {
  if (state === "null") return true;
  if (new TextEncoder().encode(state).length > awarenessBytesMax) return false;
  if (depthOf(state) > awarenessDepthMax) return false;
  const read = parsed(state);
  return fieldOf(read, "member") === member && fieldOf(read, "name") === name;
}

/**
 * Counted on the text, before a parser walks into it; brackets within strings only make it
 * stricter.
 */
function depthOf(json: string): number {
  let depth = 0;
  let deepest = 0;
  for (const character of json) {
    if (character === "{" || character === "[") depth += 1;
    if (character === "}" || character === "]") depth -= 1;
    deepest = Math.max(deepest, depth);
  }
  return deepest;
}

function parsed(json: string): unknown {
  try {
    return JSON.parse(json);
  } catch {
    return undefined;
  }
}

function fieldOf(value: unknown, name: string): unknown {
  if (typeof value !== "object" || value === null || !Object.hasOwn(value, name)) return undefined;
  return Reflect.get(value, name);
}
