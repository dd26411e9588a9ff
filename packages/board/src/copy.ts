/** The complete JSON copy of a board: its shape, version 1. Nothing of the four documents' music is left out. */
import type { Key } from "@halflap/theory/key";
import type { Feel, LaneId, Meter } from "./board.ts";

export const copyFormat = "halflap-board";
export const copyVersion = 1;

/** `at` = ticks from the start of the bar, 48 a quarter. */
export type SlotCopy = { readonly id: string; readonly at: number; readonly chord: string };
/** `length` in ticks only where the bar differs from the meter. */
export type BarCopy = {
  readonly id: string;
  readonly length?: number;
  readonly slots: readonly SlotCopy[];
};
/** A section has bars of its own or borrows another's. */
export type SectionCopy = {
  readonly id: string;
  readonly name: string;
  readonly borrows?: string;
  readonly bars: readonly BarCopy[];
};
export type LaneCopy = {
  readonly tuning: readonly number[]; // six MIDI notes, string 6 first
  readonly capo: number;
  readonly fretsFrom: "nut" | "capo";
  readonly lastFret: number;
  readonly scaleLength: number; // mm
  readonly grips: Readonly<Record<string, string>>; // by slot id: "x-x-3-2-4-x"
  readonly layOuts: readonly string[]; // bar ids
  readonly marks: Readonly<Record<string, string>>; // by bar id
};
export type BoardCopy = {
  readonly format: typeof copyFormat;
  readonly version: typeof copyVersion;
  readonly title: string;
  readonly key: Key;
  readonly tempo: number;
  readonly meter: Meter;
  readonly feel: Feel;
  readonly hasBass: boolean;
  readonly sections: readonly SectionCopy[];
  readonly form: readonly {
    readonly id: string;
    readonly section: string;
    readonly times: number;
  }[];
  readonly silences: readonly {
    readonly id: string;
    readonly rule: string;
    readonly bars: readonly string[];
    readonly reason: string;
  }[];
  readonly setAside: { readonly bars: readonly BarCopy[]; readonly slots: readonly SlotCopy[] };
  readonly lanes: Readonly<Record<LaneId, LaneCopy>>;
};
