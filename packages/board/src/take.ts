/** A take: a short recording of somebody playing along, attached to the bars it was played over. */
import type { Reading } from "@halflap/theory/chord";
import { type Ticks, ticks } from "@halflap/theory/units";
import type { BarId, MemberId } from "./board.ts";
import {
  type Fault,
  faulty,
  fieldOf,
  isWhole,
  lineOf,
  listOf,
  matching,
  numberIn,
  objectOf,
  wholeIn,
} from "./decode.ts";
import { barId, isContentId, isStoredId, type TakeId, takeId } from "./ids.ts";
import { keptReading } from "./kept-reading.ts";
import { byId, type Table } from "./lane-store.ts";
import {
  nameMax,
  spanMax,
  takeBarsMax,
  takeLeadMsMax,
  takeMsMax,
  takesMax,
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

/** What `talk` keeps of a take; `readTakes` reads it back. */
export function takeValue(take: StoredTake): Readonly<Record<string, unknown>> {
  const { from, at, name, bars, offsetMs, lengthMs, tempo } = take;
  return { from, at, head: { name, bars, offsetMs, lengthMs, tempo } };
}

/** B26: the takes, oldest first; whoever played one counts while a member. */
export function readTakes(
  stored: Table,
  members: readonly { readonly id: MemberId }[],
): readonly Take[] {
  const takes: Take[] = [];
  for (const key of [...stored.keys()].filter(isStoredId)) {
    const value = stored.get(key);
    const take = keptTake(key, value);
    if (take === undefined) continue;
    const from = members.find(({ id }) => id === fieldOf(value, "from"))?.id;
    takes.push({ ...take, from });
  }
  return takes.sort((a, b) => a.at - b.at || byId(a, b)).slice(0, takesMax);
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

const keptTake = keptReading((key, value): Omit<Take, "from"> | undefined => {
  const head = decodeTakeHead(fieldOf(value, "head"));
  const at = fieldOf(value, "at");
  if (!head.ok || !isWhole(at, 0, Number.MAX_SAFE_INTEGER)) return undefined;
  return { ...head.value, id: takeId(key), at };
});
