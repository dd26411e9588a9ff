/**
 * Strum patterns, fills and changes to a lane as they are stored and copied: plain values, and
 * their decoders.
 */
import { decodeGrip } from "@halflap/theory/grip";
import { stringNumbers } from "@halflap/theory/tuning";
import { fretMax } from "@halflap/theory/units";
import {
  type Decode,
  faulty,
  fieldOf,
  lineOf,
  listOf,
  matching,
  maybe,
  objectOf,
  oneOf,
  truth,
  wholeIn,
} from "./decode.ts";
import { isContentId, isStoredId } from "./ids.ts";
import * as limits from "./limits.ts";
import type { Strum } from "./playing.ts";
import { type Dynamic, dynamics, type Fill, type FillWay, fillWays } from "./playing.ts";
import { isBend } from "./playing-state.ts";
import { parseStrumText, printSteps, stepLengths } from "./strum-text.ts";

/** `steps` as `printSteps` writes them: "D.DU.UDU". */
export type StrumCopy = {
  readonly name: string;
  readonly step: number;
  readonly feel: Strum["feel"];
  readonly palmMute: boolean;
  readonly steps: string;
};
export type FillNoteCopy = {
  readonly start: number;
  readonly length: number;
  readonly string: number;
  readonly fret: number;
  readonly way: FillWay;
  readonly bend: number;
  readonly letRing: boolean;
};
export type FillCopy = {
  readonly bar: string;
  readonly start: number;
  readonly length: number;
  readonly kind: Fill["kind"];
  readonly together: boolean;
  readonly notes: readonly FillNoteCopy[];
};
/** Where a pattern is set: `at` is the id of a section, bar or form entry; the lane has none. */
export type StrumPlaceCopy = {
  readonly kind: "lane" | "section" | "bar" | "pass";
  readonly at?: string;
};
/** A change to a lane; a field that is missing takes away. */
export type LaneEditCopy =
  | { readonly kind: "grip"; readonly slot: string; readonly grip?: string }
  | { readonly kind: "lay-out"; readonly bar: string; readonly rest: boolean }
  | { readonly kind: "strum"; readonly id: string; readonly strum: StrumCopy }
  | { readonly kind: "strum-gone"; readonly strum: string }
  | { readonly kind: "strum-at"; readonly place: StrumPlaceCopy; readonly strum?: string }
  | { readonly kind: "fill"; readonly id: string; readonly fill: FillCopy }
  | { readonly kind: "fill-gone"; readonly fill: string }
  | { readonly kind: "dynamic"; readonly bar: string; readonly dynamic?: Dynamic }
  | { readonly kind: "palm-mute"; readonly bar: string; readonly on: boolean }
  | { readonly kind: "let-ring"; readonly bar: string; readonly on: boolean }
  | { readonly kind: "rest-pass"; readonly entry: string; readonly rest: boolean }
  | { readonly kind: "mark"; readonly bar: string; readonly text: string }
  | { readonly kind: "capo"; readonly capo: number }
  | { readonly kind: "lock"; readonly slot: string; readonly on: boolean };

/** A strum pattern as it is stored. */
export function strumCopy({ name, step, feel, palmMute, steps }: Strum): StrumCopy {
  return { name, step, feel, palmMute, steps: printSteps(steps) };
}

/** A fill as it is stored. */
export function fillCopy({ bar, start, length, kind, together, notes }: Fill): FillCopy {
  return { bar, start, length, kind, together, notes: notes.map((note) => ({ ...note })) };
}

/** An id that a document may hold. */
export const storedId = matching(isStoredId, "an id: 1 to 64 letters, digits, _ or -");
/** The id of something that stands in the chart, stored or derived. */
export const contentId = matching(isContentId, "the id of a bar or slot");
/** A grip as it is stored. */
export const gripText = matching(isGripText, "a grip, low string first: x-x-3-2-4-x");
/** A dynamic. */
export const dynamicShape = oneOf(dynamics);

/** The fields of a strum pattern. */
export const strumShape = objectOf<StrumCopy>({
  name: lineOf(limits.nameMax),
  step: oneOf(stepLengths),
  feel: oneOf(["board", "straight", "swing"] as const),
  palmMute: truth,
  steps: matching(isStepsText, "steps as D.DU.UDU"),
});

const noteShape = objectOf<FillNoteCopy>({
  start: wholeIn(0, limits.spanMax),
  length: wholeIn(1, limits.spanMax),
  string: oneOf(stringNumbers),
  fret: wholeIn(0, fretMax),
  way: oneOf(fillWays),
  bend: matching(
    (value) => value === 0 || isBend(value),
    `0, or ${limits.bendMin} to ${limits.bendMax} in halves`,
  ),
  letRing: truth,
});

/** The fields of a fill. */
export const fillShape = objectOf<FillCopy>({
  bar: contentId,
  start: wholeIn(0, limits.spanMax),
  length: wholeIn(1, limits.spanMax),
  kind: oneOf(["fill", "line"] as const),
  together: truth,
  notes: listOf(noteShape, limits.fillNotesMax),
});

type OfKind<K extends LaneEditCopy["kind"]> = Extract<LaneEditCopy, { readonly kind: K }>;

const editShapes: { readonly [K in LaneEditCopy["kind"]]: Decode<OfKind<K>> } = {
  grip: objectOf<OfKind<"grip">>({
    kind: oneOf(["grip"] as const),
    slot: contentId,
    grip: maybe(gripText),
  }),
  "lay-out": objectOf<OfKind<"lay-out">>({
    kind: oneOf(["lay-out"] as const),
    bar: contentId,
    rest: truth,
  }),
  strum: objectOf<OfKind<"strum">>({
    kind: oneOf(["strum"] as const),
    id: storedId,
    strum: strumShape,
  }),
  "strum-gone": objectOf<OfKind<"strum-gone">>({
    kind: oneOf(["strum-gone"] as const),
    strum: storedId,
  }),
  "strum-at": objectOf<OfKind<"strum-at">>({
    kind: oneOf(["strum-at"] as const),
    place: placeShape,
    strum: maybe(storedId),
  }),
  fill: objectOf<OfKind<"fill">>({ kind: oneOf(["fill"] as const), id: storedId, fill: fillShape }),
  "fill-gone": objectOf<OfKind<"fill-gone">>({
    kind: oneOf(["fill-gone"] as const),
    fill: storedId,
  }),
  dynamic: objectOf<OfKind<"dynamic">>({
    kind: oneOf(["dynamic"] as const),
    bar: contentId,
    dynamic: maybe(dynamicShape),
  }),
  "palm-mute": objectOf<OfKind<"palm-mute">>({
    kind: oneOf(["palm-mute"] as const),
    bar: contentId,
    on: truth,
  }),
  "let-ring": objectOf<OfKind<"let-ring">>({
    kind: oneOf(["let-ring"] as const),
    bar: contentId,
    on: truth,
  }),
  "rest-pass": objectOf<OfKind<"rest-pass">>({
    kind: oneOf(["rest-pass"] as const),
    entry: contentId,
    rest: truth,
  }),
  mark: objectOf<OfKind<"mark">>({
    kind: oneOf(["mark"] as const),
    bar: contentId,
    text: lineOf(limits.markMax),
  }),
  capo: objectOf<OfKind<"capo">>({
    kind: oneOf(["capo"] as const),
    capo: wholeIn(0, limits.capoMax),
  }),
  lock: objectOf<OfKind<"lock">>({
    kind: oneOf(["lock"] as const),
    slot: contentId,
    on: truth,
  }),
};

/** A change to a lane, by its kind. */
export const laneEditShape: Decode<LaneEditCopy> = (value, path) => {
  const kind = oneOf(Object.keys(editShapes))(fieldOf(value, "kind"), `${path}.kind`);
  if (!kind.ok) return kind;
  const shapes: Readonly<Record<string, Decode<LaneEditCopy>>> = editShapes;
  const shape = shapes[kind.value];
  return shape === undefined ? faulty(path, "must be a change to a lane") : shape(value, path);
};

function placeShape(value: unknown, path: string): ReturnType<Decode<StrumPlaceCopy>> {
  const place = objectOf<StrumPlaceCopy>({
    kind: oneOf(["lane", "section", "bar", "pass"] as const),
    at: maybe(contentId),
  })(value, path);
  if (!place.ok) return place;
  const { kind, at } = place.value;
  const fits = kind === "lane" ? at === undefined : kind === "section" ? isStoredId(at) : at;
  return fits === false || fits === undefined
    ? faulty(path, "must name the place of a strum pattern")
    : place;
}

function isStepsText(value: unknown): value is string {
  if (typeof value !== "string") return false;
  const read = parseStrumText(value);
  return read.ok && printSteps(read.value) === value;
}

function isGripText(value: unknown): value is string {
  return typeof value === "string" && decodeGrip(value) !== undefined;
}
