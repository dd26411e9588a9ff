/** Patterns to start from: plain rhythms that every strumming hand knows, made for any meter. */
import type { Meter } from "@halflap/board/board";
import { barLengthOf, beatOf } from "@halflap/board/meter";
import { parseStrumText } from "@halflap/board/strum-text";
import { assert, ticks, ticksPerQuarter } from "@halflap/theory/units";
import type { StrumDraft } from "./step-grid.ts";

export type ReadyName =
  | "beats"
  | "down-up"
  | "off-beats"
  | "backbeats"
  | "halves"
  | "skip"
  | "three-three-two"
  | "long-short"
  | "rolling"
  | "in-one";

/**
 * The patterns that fill a bar of this meter, plainest first, under the names that `words` gives
 * them. Common practice, no source.
 */
export function readyStrums(
  meter: Meter,
  words: Readonly<Record<ReadyName, string>>,
): readonly StrumDraft[] {
  const beat = beatOf(meter);
  const beats = barLengthOf(meter) / beat;
  // A beat of three eighths or sixteenths is longer than the meter's own unit.
  const isInThrees = beat > (4 * ticksPerQuarter) / meter.unit;
  const step = ticks(beat / (isInThrees ? 3 : 2));
  return (isInThrees ? inThrees(beats) : inHalves(beats)).map(([name, text]) => {
    const steps = parseStrumText(text);
    assert(steps.ok, `a pattern that can be read: ${text}`);
    return { name: words[name], step, feel: "board", palmMute: false, steps: steps.value };
  });
}

type Text = readonly [ReadyName, string];

/** Two steps a beat. */
function inHalves(beats: number): readonly Text[] {
  const each = eachBeat(beats);
  const even: readonly Text[] = [
    ["backbeats", each((index) => (index % 2 === 0 ? ".." : "Dx"))],
    ["halves", each((index) => (index % 2 === 0 ? "D." : ".."))],
  ];
  const odd: readonly Text[] = [["in-one", each((index) => (index === 0 ? "D." : ".."))]];
  return [
    ["beats", each(() => "D.")],
    ["down-up", each(() => "DU")],
    ["off-beats", each(() => ".U")],
    ...(beats % 2 === 0 ? even : odd),
    ["skip", each((index) => (index === 0 ? "D." : index === 2 ? ".U" : "DU"))],
    ...(beats === 4 ? ([["three-three-two", "D..U..D."]] as const) : []),
  ];
}

/** Three steps a beat. */
function inThrees(beats: number): readonly Text[] {
  const each = eachBeat(beats);
  return [
    ["beats", each(() => "D..")],
    ["long-short", each(() => "D.U")],
    ["rolling", each((index) => (index % 2 === 0 ? "DUD" : "UDU"))],
    ["in-one", each((index) => (index === 0 ? "D.." : "..."))],
  ];
}

/** Writes a bar beat by beat; `beat` counts them from 0. */
function eachBeat(beats: number) {
  return (write: (beat: number) => string) =>
    Array.from({ length: beats }, (_, index) => write(index)).join("");
}
