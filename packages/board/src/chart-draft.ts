/** A chart as it was read from text without a problem, before its parts have ids. */
import type { BarDraft } from "./chart-bars.ts";
import type { Settings } from "./chart-state.ts";

export type SectionDraft = {
  readonly name: string;
  /** The place in `sections` of the one whose chords it plays. */
  readonly borrows: number | undefined;
  readonly bars: readonly BarDraft[];
};

/** The settings that chart text has words for. */
export type ChartSettings = Pick<
  Settings,
  "title" | "key" | "tempo" | "meter" | "feel" | "hasBass"
>;

export type ChartDraft = ChartSettings & {
  readonly sections: readonly SectionDraft[];
  /** `section` is a place in `sections`; empty when the text says nothing of a form. */
  readonly form: readonly { readonly section: number; readonly times: number }[];
};
