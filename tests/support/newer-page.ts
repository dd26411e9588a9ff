/**
 * A page of a Halflap to come: it stores what this one knows nothing of, in types, settings and
 * fields of its own, and says what of it is there.
 */
import { type BoardDocuments, laneDocument } from "@halflap/board/documents";
import { chartLayout, laneLayout } from "@halflap/board/layout";
import * as Y from "yjs";

const documents = ["board", "lane-upper", "lane-lower"] as const;
const later = "later";

/** Marks everything that is stored as an object, and some things of its own beside. */
export function writeNewer(docs: BoardDocuments): void {
  for (const name of documents) {
    const doc = docs[name];
    doc.transact(() => {
      doc.getMap(later).set(`size-${doc.getMap(later).size}`, { deep: [name] });
      doc.getArray("laterOrder").push([`${name} ${doc.getArray("laterOrder").length}`]);
      metaOf(docs, name).set("laterSetting", name);
      for (const [table, map] of tablesOf(docs, name)) {
        for (const [key, value] of [...map.entries()]) {
          if (isPlain(value) && !Object.hasOwn(value, later)) {
            map.set(key, marked(value, `${table} ${key}`));
          }
        }
      }
    });
  }
}

/**
 * All that it stored and that still has something to stand on, by place: a mark, or "bare" where a
 * thing has lost its own.
 */
export function newerIn(docs: BoardDocuments): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  for (const name of documents) {
    const doc = docs[name];
    found.set(`${name} own`, JSON.stringify(doc.getMap(later).toJSON()));
    found.set(`${name} order`, JSON.stringify(doc.getArray("laterOrder").toJSON()));
    found.set(`${name} setting`, String(metaOf(docs, name).get("laterSetting")));
    for (const [table, map] of tablesOf(docs, name)) {
      for (const [key, value] of map.entries()) {
        if (isPlain(value)) found.set(`${name} ${table} ${key}`, markOf(value));
      }
    }
  }
  return found;
}

/** Each note of a fill or a phrase that has its mark, by where it stands and what it says. */
export function markedNotes(docs: BoardDocuments): ReadonlySet<string> {
  const notes = documents.flatMap((name) =>
    tablesOf(docs, name).flatMap(([table, map]) =>
      [...map.entries()].flatMap(([key, value]) =>
        notesOf(value)
          .filter((note) => Object.hasOwn(note, later))
          .map((note) => `${name} ${table} ${key} ${JSON.stringify(bare(note))}`),
      ),
    ),
  );
  return new Set(notes);
}

/** The same for all notes, marked or not. */
export function allNotes(docs: BoardDocuments): ReadonlySet<string> {
  const notes = documents.flatMap((name) =>
    tablesOf(docs, name).flatMap(([table, map]) =>
      [...map.entries()].flatMap(([key, value]) =>
        notesOf(value).map((note) => `${name} ${table} ${key} ${JSON.stringify(bare(note))}`),
      ),
    ),
  );
  return new Set(notes);
}

function metaOf(docs: BoardDocuments, name: (typeof documents)[number]): Y.Map<unknown> {
  return name === "board" ? chartLayout(docs.board).meta : laneLayout(docs[name]).meta;
}

function tablesOf(
  docs: BoardDocuments,
  name: (typeof documents)[number],
): readonly (readonly [string, Y.Map<unknown>])[] {
  const layout =
    name === "board"
      ? chartLayout(docs.board)
      : laneLayout(docs[laneDocument(name === "lane-upper" ? "upper" : "lower")]);
  return Object.entries(layout).flatMap(([table, type]) =>
    type instanceof Y.Map && table !== "meta" ? [[table, type] as const] : [],
  );
}

function isPlain(value: unknown): value is Record<string, unknown> {
  return (
    typeof value === "object" &&
    value !== null &&
    !Array.isArray(value) &&
    !(value instanceof Y.AbstractType)
  );
}

function marked(value: Record<string, unknown>, mark: string): object {
  const lists = Object.keys(value).flatMap((name) =>
    name === "notes" || name === "melody"
      ? [[name, notesOf(value).map((note) => ({ ...note, [later]: mark }))] as const]
      : [],
  );
  return { ...value, ...Object.fromEntries(lists), [later]: mark };
}

function markOf(value: Record<string, unknown>): string {
  return Object.hasOwn(value, later) ? String(value[later]) : "bare";
}

function notesOf(value: unknown): readonly Record<string, unknown>[] {
  if (!isPlain(value)) return [];
  const list = value.notes ?? value.melody;
  return Array.isArray(list) ? list.filter(isPlain) : [];
}

function bare({ [later]: _mark, ...note }: Record<string, unknown>): object {
  return Object.fromEntries(Object.entries(note).sort(([a], [b]) => (a < b ? -1 : 1)));
}
