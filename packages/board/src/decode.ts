/**
 * Decoders for JSON from outside: each takes a value and its path, and gives it back typed, or says
 * what is wrong.
 */
import type { Reading } from "@halflap/theory/chord";
import { isOneLine } from "./one-line.ts";

/** Where in the JSON, "lanes.upper.grips.s12", and what is wrong there. */
export type Fault = { readonly path: string; readonly words: string };
export type Decode<T> = (value: unknown, path: string) => Reading<T, Fault>;

/** A fault at a path. */
export function faulty(path: string, words: string): Reading<never, Fault> {
  return { ok: false, error: { path, words } };
}

/** One value and no other. */
export function exactly<const T extends string | number>(wanted: T): Decode<T> {
  return (value, path) =>
    value === wanted ? fine(wanted) : faulty(path, `must be ${JSON.stringify(wanted)}`);
}

/** One of a few values. */
export function oneOf<const T extends string | number>(wanted: readonly T[]): Decode<T> {
  return (value, path) => {
    const found = wanted.find((one) => one === value);
    return found === undefined ? faulty(path, `must be one of ${wanted.join(", ")}`) : fine(found);
  };
}

/** true or false. */
export const truth: Decode<boolean> = (value, path) =>
  typeof value === "boolean" ? fine(value) : faulty(path, "must be true or false");

/** A number in a range, both ends included. */
export function numberIn(least: number, most: number): Decode<number> {
  return (value, path) =>
    typeof value === "number" && value >= least && value <= most
      ? fine(value)
      : faulty(path, `must be a number from ${least} to ${most}`);
}

/** A whole number in a range, both ends included. */
export function wholeIn(least: number, most: number): Decode<number> {
  return (value, path) =>
    isWhole(value, least, most)
      ? fine(value)
      : faulty(path, `must be a whole number from ${least} to ${most}`);
}

/** A text of one line and at most so many characters. */
export function lineOf(max: number): Decode<string> {
  return (value, path) =>
    isOneLine(value, max)
      ? fine(value)
      : faulty(path, `must be a text of one line and at most ${max} characters`);
}

/** A value that a predicate accepts; `wanted` says what it accepts. */
export function matching<T>(is: (value: unknown) => value is T, wanted: string): Decode<T> {
  return (value, path) => (is(value) ? fine(value) : faulty(path, `must be ${wanted}`));
}

/** A list of at most so many. */
export function listOf<T>(item: Decode<T>, max: number): Decode<readonly T[]> {
  return (value, path) => {
    if (!Array.isArray(value)) return faulty(path, "must be a list");
    if (value.length > max) return faulty(path, `holds more than ${max}`);
    const items: T[] = [];
    for (const [i, each] of value.entries()) {
      const read = item(each, `${path}[${i}]`);
      if (!read.ok) return read;
      items.push(read.value);
    }
    return fine(items);
  };
}

/** An object used as a table, with keys that a predicate accepts. */
export function tableOf<T>(
  isKey: (key: unknown) => boolean,
  item: Decode<T>,
  max: number,
): Decode<Readonly<Record<string, T>>> {
  return (value, path) => {
    if (!isRecord(value)) return faulty(path, "must be an object");
    const entries = Object.entries(value);
    if (entries.length > max) return faulty(path, `holds more than ${max}`);
    const table: [string, T][] = [];
    for (const [key, each] of entries) {
      if (!isKey(key)) return faulty(path, `"${key.slice(0, 80)}" is not an id`);
      const read = item(each, `${path}.${key}`);
      if (!read.ok) return read;
      table.push([key, read.value]);
    }
    return fine(Object.fromEntries(table));
  };
}

/** A field that may be missing. */
export function maybe<T>(decode: Decode<T>): Decode<T | undefined> {
  return (value, path) => (value === undefined ? fine(undefined) : decode(value, path));
}

/** An object with these fields and no others. */
export function objectOf<T extends object>(
  fields: {
    readonly [K in keyof T]-?: Decode<T[K]>;
  },
): Decode<T> {
  const names = Object.keys(fields) as (keyof T & string)[];
  return (value, path) => {
    if (!isRecord(value)) return faulty(path, "must be an object");
    const within = (name: string) => (path === "" ? name : `${path}.${name}`);
    const unknown = Object.keys(value).find((name) => !Object.hasOwn(fields, name));
    if (unknown !== undefined) return faulty(within(unknown.slice(0, 80)), "is not known here");
    const object: Partial<T> = {};
    for (const name of names) {
      const field = Object.hasOwn(value, name) ? value[name] : undefined;
      if (field === undefined && !fields[name](undefined, "").ok) {
        return faulty(within(name), "is missing");
      }
      const read = fields[name](field, within(name));
      if (!read.ok) return read;
      if (read.value !== undefined) object[name] = read.value;
    }
    return fine(object as T);
  };
}

/** Whether a value is a whole number in a range, both ends included. */
export function isWhole(value: unknown, least: number, most: number): value is number {
  return Number.isInteger(value) && Number(value) >= least && Number(value) <= most;
}

/** A field of a plain object; undefined when the value is anything else. */
export function fieldOf(value: unknown, name: string): unknown {
  if (typeof value !== "object" || value === null || !Object.hasOwn(value, name)) return undefined;
  return Reflect.get(value, name);
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function fine<T>(value: T): Reading<T, never> {
  return { ok: true, value };
}
