/** A plain drum pattern for each feel and meter: common practice, no source. */
import { beatOf, meterOfBar } from "@halflap/board/meter";
import { type Ticks, ticks, ticksPerQuarter } from "@halflap/theory/units";
import { isSwung, type Swing, swung } from "@halflap/timeline/swing";
import { type BarInPlay, beatsOf, type Round } from "./bars-in-play.ts";
import type { Drum, DrumStroke } from "./play-event.ts";

/** A stroke in a bar, in ticks from its start. */
type Stroke = { readonly drum: Drum; readonly at: Ticks; readonly velocity: number };

/** Whether off-beats are late, and how far. */
type Feel = Pick<Round, "board" | "swing">;

const eighth = ticks(ticksPerQuarter / 2);

/** The drums of a round. */
export function drumPattern(round: Round): readonly DrumStroke[] {
  return round.bars.flatMap((bar) =>
    barStrokes(bar, round).map(({ drum, at, velocity }): DrumStroke => {
      return { kind: "drum", part: "drums", drum, start: round.clock(bar.start + at), velocity };
    }),
  );
}

function barStrokes({ played }: BarInPlay, { board, swing }: Round): readonly Stroke[] {
  const first: Stroke = { drum: "kick", at: ticks(0), velocity: 0.9 };
  // In a stop the band hits the first beat and waits.
  if (played.aims?.includes("stop")) return [first, { ...first, drum: "ride", velocity: 0.9 }];
  const beats = beatsOf(board, played);
  const meter = meterOfBar(played.bar.length, board.meter);
  const isRiding = board.feel === "swing" && isSwung(board, "board");
  const drumming = beats.flatMap((at, index): readonly Stroke[] =>
    meter.beats === 3 ? waltz(at, index) : isRiding ? light(at, index) : backbeat(at, index),
  );
  if (isRiding) return [...drumming, ...ride(played.bar.length, beats, swing)];
  return [...drumming, ...hats(played.bar.length, beatOf(meter), { board, swing })];
}

/** Kick on odd beats, snare on even ones. */
function backbeat(at: Ticks, index: number): readonly Stroke[] {
  return [
    index % 2 === 0 ? { drum: "kick", at, velocity: 0.8 } : { drum: "snare", at, velocity: 0.7 },
  ];
}

/** One low, two high. */
function waltz(at: Ticks, index: number): readonly Stroke[] {
  return [index === 0 ? { drum: "kick", at, velocity: 0.8 } : { drum: "snare", at, velocity: 0.4 }];
}

/** In swing the foot marks the even beats, and the kick is more felt than heard. */
function light(at: Ticks, index: number): readonly Stroke[] {
  return [
    index % 2 === 0 ? { drum: "kick", at, velocity: 0.45 } : { drum: "foot", at, velocity: 0.9 },
  ];
}

/** Quarters, and the swung eighth that leads from each even beat to what comes next. */
function ride(length: Ticks, beats: readonly Ticks[], swing: Swing): readonly Stroke[] {
  const quarters = Array.from(
    { length: Math.ceil(length / ticksPerQuarter) },
    (_, index): Stroke => {
      return { drum: "ride", at: ticks(index * ticksPerQuarter), velocity: 0.7 };
    },
  );
  const skips = beats.flatMap((_, index): readonly Stroke[] => {
    const at = ticks(Math.max(0, (beats[index + 1] ?? length) - eighth));
    if (index % 2 === 0 || beats.includes(at)) return [];
    return [{ drum: "ride", at: swung(at, swing), velocity: 0.5 }];
  });
  return [...quarters, ...skips];
}

/** Eighths, or quarters where a beat is a half; swung where the tune is. */
function hats(length: Ticks, beat: Ticks, { board, swing }: Feel): readonly Stroke[] {
  const isLong = beat > ticksPerQuarter && board.meter.unit === 2;
  const step = isLong ? ticks(ticksPerQuarter) : eighth;
  const moves = isSwung(board, "board");
  return Array.from({ length: Math.ceil(length / step) }, (_, index): Stroke => {
    const at = ticks(index * step);
    const velocity = at % beat === 0 ? 0.8 : 0.5;
    return { drum: "hat", at: moves ? swung(at, swing) : at, velocity };
  });
}
