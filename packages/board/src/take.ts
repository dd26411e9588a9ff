/** A take: a short recording of somebody playing along, attached to the bars it was played over. */
import type { Reading } from "@halflap/theory/chord";
import { type Ticks, ticks } from "@halflap/theory/units";
import {
  type Fault,
  faulty,
  lineOf,
  listOf,
  matching,
  numberIn,
  objectOf,
  wholeIn,
} from "./decode.ts";
import { type BarId, barId, isContentId, type MemberId, type TakeId } from "./ids.ts";
import {
  nameMax,
  spanMax,
  takeBarsMax,
  takeLeadMsMax,
  takeMsMax,
  takeTempoMax,
  takeTempoMin,
} from "./limits.ts";

/** A bar of a take, and how long it was when the take was played. */
export type TakeBar = { readonly bar: BarId; readonly length: Ticks };

/** What whoever records says about a take. */
export type TakeHead = {
  readonly name: string;
  /** In the order in which they were played, one after another. */
  readonly bars: readonly TakeBar[];
  /** Milliseconds into the recording at which the first bar starts. */
  readonly offsetMs: number;
  /** Milliseconds from there to the end of what was played. */
  readonly lengthMs: number;
  /** Beats a minute at which it was played. */
  readonly tempo: number;
};

export type Take = TakeHead & {
  readonly id: TakeId;
  /** Who played it; undefined once that is no member any more. */
  readonly from: MemberId | undefined;
  /** When the server took it, in milliseconds since 1970. */
  readonly at: number;
};

/** A take as it is stored, also of somebody who has left. */
export type StoredTake = Omit<Take, "from"> & { readonly from: MemberId };

/** What was said about a take when it was sent, or the path of what can't be so and why. */
export function decodeTakeHead(value: unknown): Reading<TakeHead, Fault> {
  const read = headShape(value, "");
  if (!read.ok) return read;
  if (read.value.bars.length === 0) return faulty("bars", "must name the bars played over");
  if (read.value.name.trim() === "") return faulty("name", "must not be empty");
  const bars = read.value.bars.map(({ bar, length }) => ({
    bar: barId(bar),
    length: ticks(length),
  }));
  return { ok: true, value: { ...read.value, bars } };
}

const headShape = objectOf({
  name: lineOf(nameMax),
  bars: listOf(
    objectOf({ bar: matching(isContentId, "a bar's id"), length: wholeIn(1, spanMax) }),
    takeBarsMax,
  ),
  offsetMs: numberIn(0, takeLeadMsMax),
  lengthMs: numberIn(1, takeMsMax),
  tempo: numberIn(takeTempoMin, takeTempoMax),
});
