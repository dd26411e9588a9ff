/** Bringing documents and copies of an older version up to date, one numbered step at a time. */
import type { Reading } from "@halflap/theory/chord";
import type * as Y from "yjs";
import type { LaneId } from "./board.ts";
import { type Fault, faulty, fieldOf } from "./decode.ts";
import type { BoardDocuments } from "./documents.ts";
import { plainPlaying } from "./lane-copy.ts";
import { chartLayout, laneLayout, schemaVersion } from "./layout.ts";
import { plainSong, unsaidSettings } from "./song-shape.ts";

/**
 * One step: what documents of version `to - 1` become. It must come out the same on every machine
 * and change nothing the second time, since two pages may take it at once.
 */
export type Migration = {
  readonly to: number;
  readonly board?: (doc: Y.Doc) => void;
  readonly lane?: (doc: Y.Doc) => void;
};

/** What a copy of version `to - 1` becomes. */
export type CopyUpgrade = { readonly to: number; readonly upgrade: (copy: object) => object };

/** In order; the last one leads to `schemaVersion`. Version 2 only adds to what version 1 holds. */
export const migrations: readonly Migration[] = [{ to: 2 }];
export const copyUpgrades: readonly CopyUpgrade[] = [{ to: 2, upgrade: withPlaying }];

export type MigrationOutcome = "current" | "migrated" | "newer";

/**
 * Brings one document up to date in one transaction. A document that says nothing of its version is
 * left alone, since nothing was written to it yet; a newer one too: it still reads, but see
 * `isNewer`.
 */
export function migrateDocument(
  doc: Y.Doc,
  kind: "board" | "lane",
  steps: readonly Migration[] = migrations,
  version: number = schemaVersion,
): MigrationOutcome {
  const from = schemaOf(doc, kind);
  if (from === undefined || from === version) return "current";
  if (from > version) return "newer";
  doc.transact(() => {
    for (const step of steps) {
      if (step.to > from && step.to <= version) step[kind]?.(doc);
    }
    metaOf(doc, kind).set("schema", version);
  });
  return "migrated";
}

/** Whether a newer Halflap wrote any of the documents, so that this one may not show all of it. */
export function isNewer(documents: BoardDocuments, version: number = schemaVersion): boolean {
  const found = [
    schemaOf(documents.board, "board"),
    schemaOf(documents["lane-upper"], "lane"),
    schemaOf(documents["lane-lower"], "lane"),
  ];
  return found.some((schema) => schema !== undefined && schema > version);
}

/**
 * A JSON copy lifted to a version, field by field unchecked; a newer one, or none at all, is a
 * fault.
 */
export function upgradedCopy(
  value: unknown,
  version: number,
  steps: readonly CopyUpgrade[] = copyUpgrades,
): Reading<unknown, Fault> {
  const from = fieldOf(value, "version");
  if (typeof value !== "object" || value === null) {
    return faulty("", "is not a copy of a board");
  }
  if (typeof from !== "number" || !Number.isInteger(from)) {
    return faulty("version", "is missing: this is not a copy of a board");
  }
  if (from > version) {
    return faulty("version", `${from} was written by a newer Halflap; this one reads ${version}`);
  }
  let copy: object = value;
  for (const step of steps) if (step.to > from && step.to <= version) copy = step.upgrade(copy);
  return { ok: true, value: copy };
}

/** Version 2 says what the hands do, who sings and what is proposed: nothing, in an older copy. */
function withPlaying(copy: object): object {
  const lanes = fieldOf(copy, "lanes");
  const lane = (id: LaneId) => {
    const older = fieldOf(lanes, id);
    return isObject(older) ? { [id]: { ...plainPlaying(), ...older } } : {};
  };
  return {
    ...unsaidSettings,
    ...plainSong(),
    ...copy,
    version: 2,
    ...(isObject(lanes) ? { lanes: { ...lanes, ...lane("upper"), ...lane("lower") } } : {}),
  };
}

function isObject(value: unknown): value is object {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function metaOf(doc: Y.Doc, kind: "board" | "lane"): Y.Map<unknown> {
  return kind === "board" ? chartLayout(doc).meta : laneLayout(doc).meta;
}

function schemaOf(doc: Y.Doc, kind: "board" | "lane"): number | undefined {
  const schema = metaOf(doc, kind).get("schema");
  return typeof schema === "number" && Number.isInteger(schema) ? schema : undefined;
}
