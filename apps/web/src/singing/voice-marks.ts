/** What of the voice lies in one bar: sung stretches and gaps, as shares of the bar. */
import type { GapOwner } from "@halflap/board/singing";
import type { Gap, Sung } from "@halflap/timeline/timeline";

/** `from` and `part` are shares of the bar, 0..1. */
export type VoiceMark = { readonly from: number; readonly part: number } & (
  | { readonly kind: "sung" }
  | { readonly kind: "gap"; readonly owner: GapOwner["owner"] | undefined }
);

/** The marks of a bar that starts at `start` ticks of its section, in order. */
export function voiceMarks(
  sung: readonly Pick<Sung, "start" | "end">[],
  gaps: readonly Gap[],
  start: number,
  length: number,
): readonly VoiceMark[] {
  const within = (each: { readonly start: number; readonly end: number }) => {
    const from = Math.max(start, each.start);
    const part = Math.min(start + length, each.end) - from;
    return part > 0 ? [{ from: (from - start) / length, part: part / length }] : [];
  };
  return [
    ...sung.flatMap((each) => within(each).map((place) => ({ ...place, kind: "sung" as const }))),
    ...gaps.flatMap((gap) =>
      within(gap).map((place) => ({ ...place, kind: "gap" as const, owner: gap.owner })),
    ),
  ].sort((a, b) => a.from - b.from);
}
