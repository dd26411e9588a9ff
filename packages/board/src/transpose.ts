/** A whole board in another key, and what its players have to look at afterwards. */
import type { Chord } from "@halflap/theory/chord";
import { decodeGrip, type Grip, printGrip } from "@halflap/theory/grip";
import { type MovedGrip, moveGrip } from "@halflap/theory/move-grip";
import { parseChord } from "@halflap/theory/parse-chord";
import { type Transposition, transposeSymbol } from "@halflap/theory/transpose";
import { assert } from "@halflap/theory/units";
import { type BarId, type Board, type LaneId, laneIds, type SlotId } from "./board.ts";
import {
  type BarCopy,
  type BoardCopy,
  fillDocuments,
  type LaneCopy,
  type SlotCopy,
} from "./copy.ts";
import { emptyDocuments } from "./documents.ts";
import { barId, ownSlot, slotId } from "./ids.ts";
import { chordTextMax } from "./limits.ts";
import type { FillCopy } from "./playing-shape.ts";
import { makeReader } from "./read.ts";
import { movedFill, movedPhrase } from "./transpose-notes.ts";

/** Something that moving to another key could not settle. `bar` counts through the chart. */
export type Attention =
  /** The text is no chord, or too long in the new key: it stands as it was. */
  | { readonly kind: "chord"; readonly bar: number; readonly slot: SlotId; readonly text: string }
  /** The grip could not go along; the first of the choices stands in the copy. */
  | (GripChange & { readonly kind: "replaced"; readonly choices: readonly Grip[] })
  /** The grip went an octave lower (-1) or higher (1) than the tune. */
  | (GripChange & { readonly kind: "octave"; readonly now: Grip; readonly octave: -1 | 1 })
  /** Nothing takes the grip's place. */
  | (GripChange & { readonly kind: "lost" })
  /** A fill leaves the neck where it stands: it is as it was. */
  | { readonly kind: "fill"; readonly lane: LaneId; readonly bar: number }
  /** A mark names strings or frets, which may no longer be right. */
  | {
      readonly kind: "mark";
      readonly lane: LaneId;
      readonly bar: number;
      readonly text: string;
    };

type GripChange = {
  readonly lane: LaneId;
  readonly bar: number;
  readonly slot: SlotId;
  readonly was: Grip;
};

/** The board in its new key, and what needs attention in reading order. */
export type TransposedBoard = {
  readonly copy: BoardCopy;
  readonly attention: readonly Attention[];
};

/** Where a slot stands on the board. */
type Place = { readonly bar: number | undefined; readonly chord: Chord | undefined };

const namesPlaces = /\b(?:strings?|frets?|capo)\b|\b[1-6]:\d/i;

/**
 * Everything in the new key: key, chords as they were typed, melodies, and the grips and fills of
 * both lanes, each along its neck where it can go; sung ranges, capos and tunings stay. What is set
 * aside moves along without a word. `by` starts from the board's key.
 */
export function transposeBoard(copy: BoardCopy, by: Transposition): TransposedBoard {
  assert(
    by.from.tonic === copy.key.tonic && by.from.mode === copy.key.mode,
    "a board is moved from its own key",
  );
  const board = boardOf(copy);
  const moved: BoardCopy = {
    ...copy,
    key: by.into,
    sections: copy.sections.map((section) => ({
      ...section,
      bars: section.bars.map((bar) => movedBar(bar, by)),
    })),
    phrases: Object.fromEntries(
      Object.entries(copy.phrases).map(([id, sung]) => [id, movedPhrase(sung, by.semitones)]),
    ),
    setAside: {
      bars: copy.setAside.bars.map((bar) => movedBar(bar, by)),
      slots: copy.setAside.slots.map((slot) => ({ ...slot, chord: movedText(slot.chord, by) })),
    },
  };
  const chords = placesOf(boardOf(moved), moved);
  const lanes = laneIds.map((lane) => movedLane(lane, copy, board, chords, by));
  const [upper, lower] = lanes;
  assert(upper !== undefined && lower !== undefined, "a board has two lanes");
  return {
    copy: { ...moved, lanes: { upper: upper.lane, lower: lower.lane } },
    attention: inOrder([...unmovedChords(board, by), ...lanes.flatMap((lane) => lane.attention)]),
  };
}

/** What needs attention, as a sentence. */
export function attentionWords(attention: Attention): string {
  const bar = `Bar ${attention.bar}`;
  switch (attention.kind) {
    case "chord":
      return `${bar}: “${attention.text}” could not be moved and stands as it was.`;
    case "mark":
      return `${bar}, ${attention.lane} lane: “${attention.text}” may name other places now.`;
    case "fill":
      return `${bar}, ${attention.lane} lane: the fill leaves the neck and stands as it was.`;
    case "lost":
      return `${laneAt(attention)} does not work in this key, and nothing takes its place.`;
    case "octave": {
      const way = attention.octave > 0 ? "higher" : "lower";
      return `${laneAt(attention)} is now ${printGrip(attention.now)}, an octave ${way}.`;
    }
    case "replaced": {
      const [first, ...others] = attention.choices.map((grip) => printGrip(grip));
      const or = others.length === 0 ? "" : `; or ${others.join(", ")}`;
      return `${laneAt(attention)} does not work in this key: ${first} is nearest${or}.`;
    }
  }
}

function laneAt({ bar, lane, was }: GripChange): string {
  return `Bar ${bar}, ${lane} lane: ${printGrip(was)}`;
}

function movedBar(bar: BarCopy, by: Transposition): BarCopy {
  return {
    ...bar,
    slots: bar.slots.map((slot): SlotCopy => ({ ...slot, chord: movedText(slot.chord, by) })),
  };
}

/** The chord in the new key; a text that can't be moved stays. */
function movedText(text: string, by: Transposition): string {
  return movedSymbol(text, by) ?? text;
}

function movedSymbol(text: string, by: Transposition): string | undefined {
  const moved = transposeSymbol(text, by);
  return moved.ok && moved.value.length <= chordTextMax ? moved.value : undefined;
}

function unmovedChords(board: Board, by: Transposition): readonly Attention[] {
  return board.sections
    .filter((section) => section.borrows === undefined)
    .flatMap((section) => section.bars)
    .flatMap((bar) =>
      bar.slots
        .filter((slot) => slot.text !== "" && movedSymbol(slot.text, by) === undefined)
        .map(({ id, text }) => ({ kind: "chord", bar: bar.number, slot: id, text }) as const),
    );
}

type MovedLane = { readonly lane: LaneCopy; readonly attention: readonly Attention[] };

function movedLane(
  lane: LaneId,
  copy: BoardCopy,
  board: Board,
  places: ReadonlyMap<string, Place>,
  by: Transposition,
): MovedLane {
  const { setup } = board.lanes[lane];
  const grips: [string, string][] = [];
  const attention: Attention[] = [];
  for (const [slot, text] of Object.entries(copy.lanes[lane].grips)) {
    const was = decodeGrip(text);
    if (was === undefined) continue;
    const id = slotId(slot);
    const place = places.get(id);
    const chord = place?.chord ?? places.get(ownSlot(id))?.chord;
    const moved = moveGrip(was, setup, by.semitones, chord, copy.hasBass);
    const now = gripAfter(moved);
    if (now !== undefined) grips.push([slot, printGrip(now)]);
    const noted = noteOf(moved);
    if (noted !== undefined && place?.bar !== undefined) {
      attention.push({ ...noted, lane, bar: place.bar, slot: id, was });
    }
  }
  const marks = [...board.lanes[lane].marks].flatMap(([bar, text]): readonly Attention[] => {
    const number = numberOf(board, bar);
    const isShown = number !== undefined && namesPlaces.test(text);
    return isShown ? [{ kind: "mark", lane, bar: number, text }] : [];
  });
  const chosenFor = Object.fromEntries(
    Object.entries(copy.lanes[lane].chosenFor).map(([slot, text]) => [slot, movedText(text, by)]),
  );
  const fills = movedFills(lane, copy, board, by);
  const moved = { ...copy.lanes[lane], grips: Object.fromEntries(grips), chosenFor };
  return {
    lane: { ...moved, fills: fills.fills },
    attention: [...attention, ...fills.attention, ...marks],
  };
}

/** The fills where they can go along; those that can't stay, and are pointed out. */
function movedFills(lane: LaneId, copy: BoardCopy, board: Board, by: Transposition) {
  const fills: [string, FillCopy][] = [];
  const attention: Attention[] = [];
  for (const [id, fill] of Object.entries(copy.lanes[lane].fills)) {
    const moved = movedFill(fill, board.lanes[lane].setup, by.semitones);
    fills.push([id, moved ?? fill]);
    const bar = numberOf(board, barId(fill.bar));
    if (moved === undefined && bar !== undefined) attention.push({ kind: "fill", lane, bar });
  }
  return { fills: Object.fromEntries(fills), attention };
}

function gripAfter(moved: MovedGrip): Grip | undefined {
  if (moved.kind === "moved") return moved.grip;
  return moved.kind === "replaced" ? moved.choices[0] : undefined;
}

/** What is to be said of a grip; nothing when it went where the tune went. */
function noteOf(moved: MovedGrip) {
  if (moved.kind !== "moved") return moved;
  if (moved.octave === 0) return undefined;
  return { kind: "octave", now: moved.grip, octave: moved.octave } as const;
}

/** Each slot of the board with its bar, and each that is stored but stands in no bar. */
function placesOf(board: Board, copy: BoardCopy): ReadonlyMap<string, Place> {
  const apart = [...copy.sections.flatMap(({ bars }) => bars), ...copy.setAside.bars]
    .flatMap(({ slots }) => slots)
    .concat(copy.setAside.slots.map((slot) => ({ ...slot, at: 0 })));
  const places = new Map<string, Place>();
  for (const { id, chord } of apart) {
    const read = parseChord(chord);
    places.set(id, { bar: undefined, chord: read.ok ? read.value : undefined });
  }
  for (const bar of board.sections.flatMap((section) => section.bars)) {
    for (const slot of bar.slots) places.set(slot.id, { bar: bar.number, chord: slot.chord });
  }
  return places;
}

function numberOf(board: Board, id: BarId): number | undefined {
  const bars = board.sections.flatMap((section) => section.bars);
  return bars.find((bar) => bar.id === id)?.number;
}

/** The copy as the board that it would be. */
function boardOf(copy: BoardCopy): Board {
  const documents = emptyDocuments();
  fillDocuments(documents, copy);
  return makeReader(documents)();
}

/** By bar; within a bar the chart before the lanes. */
function inOrder(attention: readonly Attention[]): readonly Attention[] {
  return [...attention].sort((one, other) => one.bar - other.bar);
}
