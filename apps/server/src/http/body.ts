/** Request bodies decoded once, strictly: known fields, known types, known sizes. */
import { type LaneId, laneIds, type MemberId } from "@halflap/board/board";
import { isStoredId } from "@halflap/board/ids";
import { memberId } from "@halflap/board/talk";
import type { Context } from "hono";
import { Refused } from "./answers.ts";

export type Fields = Readonly<Record<string, unknown>>;

/** The JSON object of a body with no fields but these. Throws Refused. */
export async function fieldsOf(c: Context, known: readonly string[]): Promise<Fields> {
  const isJson = /^application\/json(;|$)/.test(c.req.header("content-type") ?? "");
  if (!isJson) throw bad("The request must be JSON.");
  const value = parsed(await c.req.text());
  if (typeof value !== "object" || value === null || Array.isArray(value)) {
    throw bad("The request must be a JSON object.");
  }
  const fields = Object.entries(value);
  const unknown = fields.find(([name]) => !known.includes(name));
  if (unknown !== undefined) throw bad(`The request has a field that is not known here.`);
  return Object.fromEntries(fields);
}

/** A whole number. Throws Refused. */
export function wholeIn(fields: Fields, name: string, least: number, most: number): number {
  const value = fields[name];
  if (typeof value === "number" && Number.isInteger(value) && value >= least && value <= most) {
    return value;
  }
  throw bad(`"${name}" must be a whole number from ${least} to ${most}.`);
}

/** One of a few texts. Throws Refused. */
export function oneOf<const T extends string>(fields: Fields, name: string, of: readonly T[]): T {
  const found = of.find((one) => one === fields[name]);
  if (found === undefined) throw bad(`"${name}" must be one of ${of.join(", ")}.`);
  return found;
}

/** A member's id, or null for nobody where that is allowed. Throws Refused. */
export function memberIn(fields: Fields, name: string): MemberId | null {
  const value = fields[name];
  if (value === null) return null;
  if (!isStoredId(value)) throw bad(`"${name}" must be a member's id.`);
  return memberId(value);
}

/** The lane a path names; undefined when it names none. */
export function laneOf(text: string | undefined): LaneId | undefined {
  return laneIds.find((lane) => lane === text);
}

/** The refusal of a body. */
export function bad(words: string): Refused {
  return new Refused("bad-body", words);
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
