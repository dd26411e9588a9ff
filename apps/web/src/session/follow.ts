/**
 * A live Board: the same plain shape, in which every field is a signal. It follows the boards that
 * are read from the documents, so that whoever reads one slot is told of changes to that slot
 * alone.
 */
import type { Board } from "@halflap/board/board";
import { batch, createSignal } from "solid-js";

type Fields = { readonly [name: string]: unknown };
type Item = Fields & { readonly id: string };

/** How deep a value is followed: by its fields, as a list of things with an id, or as a whole. */
type Shape =
  | { readonly kind: "fields"; readonly inside: { readonly [name: string]: Shape } }
  | { readonly kind: "list"; readonly of: Shape & { kind: "fields" } };

const whole = { kind: "fields", inside: {} } as const;
const listOf = (inside: { readonly [name: string]: Shape }) =>
  ({ kind: "list", of: { kind: "fields", inside } }) as const;

const boardShape = {
  kind: "fields",
  inside: {
    sections: listOf({ bars: listOf({ slots: listOf({}) }) }),
    form: listOf({}),
    members: listOf({}),
    takes: listOf({}),
    silences: listOf({}),
    voices: listOf({}),
    phrases: listOf({}),
    gapOwners: listOf({}),
    proposals: listOf({}),
    lanes: { kind: "fields", inside: { upper: whole, lower: whole } },
  },
} as const;

/** A value that can be read live, and given its successor. */
type Live<T> = { read(): T; follow(next: T): void };

export type LiveBoard = {
  readonly board: Board;
  /** Tells the readers of exactly those fields that say something else than before. */
  follow(next: Board): void;
};

/**
 * A live board that says `first`. What has an id stays the same object for as long as it is there.
 */
export function makeLiveBoard(first: Board): LiveBoard {
  const live = liveFields(boardShape, first as Fields);
  return {
    board: live.read() as unknown as Board,
    follow: (next) => batch(() => live.follow(next as Fields)),
  };
}

function liveValue(shape: Shape | undefined, first: unknown): Live<unknown> {
  if (shape?.kind === "fields") return liveFields(shape, first as Fields) as Live<unknown>;
  if (shape?.kind === "list") return liveList(shape.of, first as readonly Item[]) as Live<unknown>;
  const [value, setValue] = createSignal(first);
  return { read: value, follow: (next) => setValue(() => next) };
}

function liveFields(shape: Shape & { kind: "fields" }, first: Fields): Live<Fields> {
  const item = {};
  const fields = Object.entries(first).map(([name, value]) => {
    const live = liveValue(shape.inside[name], value);
    Object.defineProperty(item, name, { get: live.read, enumerable: true });
    return [name, live] as const;
  });
  let last = first;
  return {
    read: () => item,
    follow(next) {
      if (next === last) return; // reading shares what did not change
      last = next;
      for (const [name, live] of fields) live.follow(next[name]);
    },
  };
}

function liveList(
  shape: Shape & { kind: "fields" },
  first: readonly Item[],
): Live<readonly Item[]> {
  const liveItems = (from: readonly Item[], known: ReadonlyMap<string, Live<Fields>>) =>
    new Map(from.map((item) => [item.id, known.get(item.id) ?? liveFields(shape, item)]));
  const itemsOf = (lives: ReadonlyMap<string, Live<Fields>>) =>
    [...lives.values()].map((live) => live.read() as Item);
  let last = first;
  let lives = liveItems(first, new Map());
  const [items, setItems] = createSignal<readonly Item[]>(itemsOf(lives), { equals: sameItems });
  return {
    read: items,
    follow(next) {
      if (next === last) return;
      last = next;
      lives = liveItems(next, lives);
      for (const item of next) lives.get(item.id)?.follow(item);
      setItems(itemsOf(lives));
    },
  };
}

function sameItems(a: readonly Item[], b: readonly Item[]): boolean {
  return a.length === b.length && a.every((item, index) => item === b[index]);
}
