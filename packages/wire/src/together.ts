/**
 * Playing together: the four messages by which clocks are agreed and everybody plays the same, and
 * what they may hold.
 */
import {
  type BarId,
  barId,
  isContentId,
  isStoredId,
  type SectionId,
  sectionId,
} from "@halflap/board/ids";
import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import {
  togetherCountInMax,
  togetherPercentMax,
  togetherPercentMin,
  togetherTickMax,
} from "./limits.ts";

/** Page to server: what time is it? */
export const clockQuestionMessage = 102;
/** Server to page: the question's own time again, and the server's. */
export const clockAnswerMessage = 103;
/** Page to server: from now on this is played. */
export const togetherAskMessage = 104;
/** Server to page: this is played, since whose word. */
export const togetherToldMessage = 105;

/** A page's monotonic time in ms, and whether somebody there hears what is played together. */
export type ClockQuestion = { readonly sentMs: number; readonly isAlong: boolean };
/** Out of each other's reach, or how far off each other their times are at most, in ms. */
export type NodesApart = "cut-off" | { readonly withinMs: number };
/** The page's own time, and the server's when the question was read; both in ms. */
export type ClockAnswer = {
  readonly sentMs: number;
  readonly serverMs: number;
  /** How this server's time lies to that of others who serve the board; undefined without any. */
  readonly nodes?: NodesApart | undefined;
};

/** What goes round: one time through a section, or from one bar to another. */
export type SharedLoop =
  | { readonly kind: "section"; readonly section: SectionId }
  | { readonly kind: "bars"; readonly from: BarId; readonly to: BarId };

/** At this moment of the server's clock the tune stands at this tick of the order of play. */
export type SharedPlay = {
  readonly kind: "playing";
  /** The start of a bar, counted without count-in. */
  readonly tick: number;
  readonly atMs: number;
  /** Of the board's own tempo; whole. */
  readonly percent: number;
  /** Bars of clicks that end at this moment. */
  readonly countIn: number;
  readonly loop: SharedLoop | undefined;
};

export type SharedWish = SharedPlay | { readonly kind: "stopped" };

/** What is played together, and whose word it was; the highest revision is the last word. */
export type Told =
  | { readonly kind: "nothing" }
  | {
      readonly kind: "word";
      readonly revision: number;
      readonly by: string;
      readonly wish: SharedWish;
    };

/** The whole frame that asks for the time. */
export function encodeClockQuestion({ sentMs, isAlong }: ClockQuestion): Uint8Array {
  return framed(clockQuestionMessage, (encoder) => {
    encoding.writeVarUint(encoder, microseconds(sentMs));
    encoding.writeVarUint(encoder, isAlong ? 1 : 0);
  });
}

/** The question after its number; undefined when it is none. Throws where the bytes end early. */
export function decodeClockQuestion(decoder: decoding.Decoder): ClockQuestion | undefined {
  const sentMs = decoding.readVarUint(decoder) / 1000;
  const along = decoding.readVarUint(decoder);
  return along > 1 ? undefined : { sentMs, isAlong: along === 1 };
}

/** The whole frame that says the time. */
export function encodeClockAnswer({ sentMs, serverMs, nodes }: ClockAnswer): Uint8Array {
  return framed(clockAnswerMessage, (encoder) => {
    encoding.writeVarUint(encoder, microseconds(sentMs));
    encoding.writeVarUint(encoder, microseconds(serverMs));
    if (nodes === undefined) return;
    const within = nodes === "cut-off" ? 0 : 1 + microseconds(nodes.withinMs);
    encoding.writeVarUint(encoder, within);
  });
}

/** The answer after its number. Throws where the bytes end early. */
export function decodeClockAnswer(decoder: decoding.Decoder): ClockAnswer {
  const sentMs = decoding.readVarUint(decoder) / 1000;
  const serverMs = decoding.readVarUint(decoder) / 1000;
  if (!decoding.hasContent(decoder)) return { sentMs, serverMs };
  const within = decoding.readVarUint(decoder);
  const nodes = within === 0 ? "cut-off" : { withinMs: (within - 1) / 1000 };
  return { sentMs, serverMs, nodes };
}

/** The whole frame that asks for something to be played, or for a stop. */
export function encodeTogetherAsk(wish: SharedWish): Uint8Array {
  return framed(togetherAskMessage, (encoder) => writeWish(encoder, wish));
}

/** What is asked for, after its number; undefined when out of bounds. Throws at an early end. */
export function decodeTogetherAsk(decoder: decoding.Decoder): SharedWish | undefined {
  return readWish(decoder);
}

/** The whole frame that says what is played. */
export function encodeTogetherTold(told: Told): Uint8Array {
  return framed(togetherToldMessage, (encoder) => {
    encoding.writeVarUint(encoder, told.kind === "nothing" ? 0 : told.revision);
    if (told.kind === "nothing") return;
    encoding.writeVarString(encoder, told.by);
    writeWish(encoder, told.wish);
  });
}

/** What is played, after its number; undefined when out of bounds. Throws at an early end. */
export function decodeTogetherTold(decoder: decoding.Decoder): Told | undefined {
  const revision = decoding.readVarUint(decoder);
  if (revision === 0) return { kind: "nothing" };
  const by = decoding.readVarString(decoder);
  const wish = readWish(decoder);
  return wish && isStoredId(by) ? { kind: "word", revision, by, wish } : undefined;
}

function framed(number: number, write: (encoder: encoding.Encoder) => void): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, number);
  write(encoder);
  return encoding.toUint8Array(encoder);
}

function microseconds(ms: number): number {
  return Math.max(0, Math.round(ms * 1000));
}

const stopped = 0;
const playing = 1;

function writeWish(encoder: encoding.Encoder, wish: SharedWish): void {
  encoding.writeVarUint(encoder, wish.kind === "stopped" ? stopped : playing);
  if (wish.kind === "stopped") return;
  encoding.writeVarUint(encoder, wish.tick);
  encoding.writeVarUint(encoder, microseconds(wish.atMs));
  encoding.writeVarUint(encoder, wish.percent);
  encoding.writeVarUint(encoder, wish.countIn);
  const ids = idsOf(wish.loop);
  encoding.writeVarUint(encoder, ids.length);
  for (const id of ids) encoding.writeVarString(encoder, id);
}

function readWish(decoder: decoding.Decoder): SharedWish | undefined {
  const kind = decoding.readVarUint(decoder);
  if (kind === stopped) return { kind: "stopped" };
  if (kind !== playing) return undefined;
  const tick = decoding.readVarUint(decoder);
  const atMs = decoding.readVarUint(decoder) / 1000;
  const percent = decoding.readVarUint(decoder);
  const countIn = decoding.readVarUint(decoder);
  const loop = readLoop(decoder);
  const isFit =
    tick <= togetherTickMax &&
    percent >= togetherPercentMin &&
    percent <= togetherPercentMax &&
    countIn <= togetherCountInMax;
  if (!isFit || loop === "unreadable") return undefined;
  return { kind: "playing", tick, atMs, percent, countIn, loop };
}

/** None: straight through. One: a section. Two: from one bar to another. */
function idsOf(loop: SharedLoop | undefined): readonly string[] {
  if (loop === undefined) return [];
  return loop.kind === "section" ? [loop.section] : [loop.from, loop.to];
}

function readLoop(decoder: decoding.Decoder): SharedLoop | undefined | "unreadable" {
  const count = decoding.readVarUint(decoder);
  if (count > 2) return "unreadable";
  const [first, second] = Array.from({ length: count }, () => decoding.readVarString(decoder));
  if (first === undefined) return undefined;
  if (second === undefined) {
    return isStoredId(first) ? { kind: "section", section: sectionId(first) } : "unreadable";
  }
  if (!isContentId(first) || !isContentId(second)) return "unreadable";
  return { kind: "bars", from: barId(first), to: barId(second) };
}
