/** Where the marks of a bar stand: over the beat at which their findings begin to sound. */
import type { Bar } from "@halflap/board/board";
import type { Finding } from "@halflap/checker/finding";
import { type Sign, signOf, signs } from "../findings/reading-order.ts";

/** Findings of one sign that begin at one beat. */
export type Mark = { readonly sign: Sign; readonly findings: readonly Finding[] };

/** The marks of one beat, the gravest first. */
export type MarkPlace = { readonly beat: number; readonly marks: readonly Mark[] };

/** The marks of the findings that begin in a bar, beat by beat from 0; `beat` in ticks. */
export function markPlaces(
  findings: readonly Finding[],
  bar: Pick<Bar, "id">,
  beat: number,
): readonly MarkPlace[] {
  const places = new Map<number, Finding[]>();
  for (const finding of findings) {
    if (finding.bars[0] !== bar.id) continue;
    const start = finding.spans.find((span) => span.bar === bar.id)?.start ?? 0;
    const at = Math.floor(start / beat);
    places.set(at, [...(places.get(at) ?? []), finding]);
  }
  return [...places]
    .sort(([a], [b]) => a - b)
    .map(([at, here]) => ({ beat: at, marks: signs.flatMap((sign) => markOf(sign, here)) }));
}

/**
 * Grid columns that put each place over its beat, as wide as the time to the next; marks that need
 * more room push what follows.
 */
export function markColumns(places: readonly MarkPlace[], beats: number): string {
  const starts = places.map((place) => place.beat);
  const lead = starts[0] ?? 0;
  const columns = starts.map((start, index) => {
    const until = starts[index + 1] ?? Math.max(beats, start + 1);
    return `minmax(min-content, ${until - start}fr)`;
  });
  return (lead > 0 ? [`minmax(0, ${lead}fr)`, ...columns] : columns).join(" ");
}

/** The stretch of a bar in which a finding sounds, as shares of the bar; undefined when none. */
export function stretchIn(
  finding: Finding | undefined,
  bar: Pick<Bar, "id" | "length">,
): { readonly from: number; readonly to: number } | undefined {
  const span = finding?.spans.find((each) => each.bar === bar.id);
  return span && { from: span.start / bar.length, to: Math.min(1, span.end / bar.length) };
}

function markOf(sign: Sign, findings: readonly Finding[]): readonly Mark[] {
  const alikes = findings.filter((finding) => signOf(finding) === sign);
  return alikes.length > 0 ? [{ sign, findings: alikes }] : [];
}
