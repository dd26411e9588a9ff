/** Meters: how long a bar is, what one beat is, and how both are written. */
import { type Ticks, ticks, ticksPerQuarter } from "@halflap/theory/units";
import type { Meter } from "./board.ts";
import { meterBeatsMax } from "./limits.ts";

const units = [2, 4, 8, 16] as const;
const ticksPerWhole = 4 * ticksPerQuarter;

export const commonTime: Meter = { beats: 4, unit: 4 };

/** The length of a bar in a meter. */
export function barLengthOf(meter: Meter): Ticks {
  return ticks((ticksPerWhole / meter.unit) * meter.beats);
}

/**
 * One beat: the meter's unit, or three of them where eighths or sixteenths come in groups of three
 * (6/8, 9/8, 12/8; common practice, compound meters).
 */
export function beatOf(meter: Meter): Ticks {
  const unit = ticksPerWhole / meter.unit;
  const compound = meter.unit >= 8 && meter.beats > 3 && meter.beats % 3 === 0;
  return ticks(compound ? 3 * unit : unit);
}

/** "6/8". */
export function printMeter(meter: Meter): string {
  return `${meter.beats}/${meter.unit}`;
}

/** The meter of "6/8"; undefined for anything else. */
export function parseMeter(text: string): Meter | undefined {
  const match = /^(\d{1,2})\s*\/\s*(2|4|8|16)$/.exec(text.trim());
  const beats = Number(match?.[1]);
  const unit = units.find((known) => known === Number(match?.[2]));
  if (unit === undefined || !(beats >= 1 && beats <= meterBeatsMax)) return undefined;
  return { beats, unit };
}

/** Whether a bar may have this length: that of a meter, so that it can be written. */
export function isBarLength(value: unknown): value is number {
  return typeof value === "number" && value > 0 && units.some((unit) => fits(value, unit));
}

/**
 * The shortest bar of whole beats in which a place lies, counted from the start of the bar;
 * undefined where no bar may be that long.
 */
export function barLengthHolding(start: Ticks, meter: Meter): Ticks | undefined {
  const beat = beatOf(meter);
  const length = (Math.floor(start / beat) + 1) * beat;
  return isBarLength(length) ? ticks(length) : undefined;
}

/**
 * The meter in which a bar of this length is written: the tune's own, else on its unit or a finer
 * one.
 */
export function meterOfBar(length: Ticks, meter: Meter): Meter {
  if (length === barLengthOf(meter)) return meter;
  const unit = units.find((u) => u >= meter.unit && fits(length, u)) ?? fallback(length);
  return { beats: (length * unit) / ticksPerWhole, unit };
}

function fits(length: number, unit: number): boolean {
  const beats = (length * unit) / ticksPerWhole;
  return Number.isInteger(beats) && beats <= meterBeatsMax;
}

function fallback(length: Ticks): Meter["unit"] {
  return units.find((unit) => fits(length, unit)) ?? 16;
}
