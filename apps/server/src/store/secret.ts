/**
 * Ids and secrets: 256 random bits for what opens something, and only their SHA-256 for the store.
 */
import { createHash, randomBytes } from "node:crypto";
import type { MemberId } from "@halflap/board/board";
import { type TakeId, takeId } from "@halflap/board/ids";
import { memberId } from "@halflap/board/talk";
import type { BoardId, LinkId } from "@halflap/wire/api";

/** 256 random bits, 43 characters of base64url. Never stored, never logged. */
export type Secret = string & { readonly unit: "Secret" };
/** SHA-256 of a secret. The secret has full entropy, so no salt and no slow hash are needed. */
export type SecretHash = Buffer & { readonly unit: "SecretHash" };

/** A new secret. */
export function makeSecret(): Secret {
  return randomBytes(32).toString("base64url") as Secret;
}

/** The secret in an untrusted text; undefined when it can't be one. */
export function decodeSecret(text: string | undefined): Secret | undefined {
  return text !== undefined && /^[A-Za-z0-9_-]{43}$/.test(text) ? (text as Secret) : undefined;
}

/** What the store keeps of a secret. */
export function hashOf(secret: Secret): SecretHash {
  return createHash("sha256").update(secret).digest() as SecretHash;
}

/** A new board's id: 128 random bits, so that it can't be guessed. */
export function makeBoardId(): BoardId {
  return randomBytes(16).toString("base64url") as BoardId;
}

/** The board id in an untrusted text; undefined when it can't be one. */
export function decodeBoardId(text: string | undefined): BoardId | undefined {
  return text !== undefined && /^[A-Za-z0-9_-]{22}$/.test(text) ? (text as BoardId) : undefined;
}

/** A new link's id, which opens nothing. */
export function makeLinkId(): LinkId {
  return randomBytes(9).toString("base64url") as LinkId;
}

/** The link id in an untrusted text; undefined when it can't be one. */
export function decodeLinkId(text: string | undefined): LinkId | undefined {
  return text !== undefined && /^[A-Za-z0-9_-]{12}$/.test(text) ? (text as LinkId) : undefined;
}

/** A new take's id: 128 random bits, so that it can't be guessed. */
export function makeTakeId(): TakeId {
  return takeId(randomBytes(16).toString("base64url"));
}

/** The take id in an untrusted text; undefined when it can't be one. */
export function decodeTakeId(text: string | undefined): TakeId | undefined {
  return text !== undefined && /^[A-Za-z0-9_-]{22}$/.test(text) ? takeId(text) : undefined;
}

const thisRun = randomBytes(12).toString("base64url");
let messages = 0;

/**
 * The id of one row on its way to the log: random for the process, counted on in it, so that an
 * index by it grows at one end.
 */
export function makeMessageId(): string {
  messages += 1;
  return `${thisRun}.${messages.toString(36).padStart(9, "0")}`;
}

/** A new member's id. */
export function makeMemberId(): MemberId {
  return memberId(randomBytes(12).toString("base64url"));
}
