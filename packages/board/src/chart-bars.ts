/** What stands between two bar lines, read strictly: chords, holds, and the same again. */
import type { Reading } from "@halflap/theory/chord";
import { parseChord } from "@halflap/theory/parse-chord";
import { type Ticks, ticks } from "@halflap/theory/units";
import {
  printBarWords,
  printOwnMeter,
  type SlotText,
  shareOf,
  type Word,
  wordsOf,
} from "./bar-text.ts";
import type { Meter } from "./board.ts";
import { type Piece, trimmed } from "./chart-lines.ts";
import { chordProblem, type LineProblem, problemAt } from "./chart-problem.ts";
import { slotsPerBarMax } from "./limits.ts";
import { barLengthOf, beatOf, meterOfBar, parseMeter, printMeter } from "./meter.ts";

export type BarDraft = {
  /** In ticks, only where the bar differs from the meter. */
  readonly length: Ticks | undefined;
  readonly slots: readonly SlotText[];
};

const nothingHere =
  "Nothing stands in this bar. Write a chord, % for the same again, . to go on, or N.C. for none.";

/**
 * A bar, where `before` are those before it: of its own section, or, where `opens` says that it
 * begins one, of the last section that has bars.
 */
export function readBar(
  piece: Piece,
  meter: Meter,
  before: readonly BarDraft[],
  opens: boolean,
): Reading<BarDraft, readonly LineProblem[]> {
  const words = wordsOf(piece.text, piece.column);
  const [first] = words;
  if (first === undefined) return wrong(problemAt(trimmed(piece), nothingHere, "%"));
  const same = words.find(({ text }) => text === "%");
  if (same !== undefined) {
    if (words.length > 1) return wrong(problemAt(same, "% stands alone in its bar."));
    const again = sameAgain(before);
    if (again === undefined) return wrong(problemAt(same, "There is no bar before this % yet."));
    return { ok: true, value: again };
  }
  const own = /^\d+\/\d+$/.test(first.text);
  const ownMeter = own ? parseMeter(first.text) : meter;
  if (ownMeter === undefined) {
    return wrong(problemAt(first, `${first.text} is no meter I know.`, "2/4"));
  }
  const played = own ? words.slice(1) : words;
  const [start] = played;
  if (start === undefined) return wrong(problemAt(first, nothingHere));
  if (opens && start.hold) {
    const hint = "A section can't start with a dot: there is no chord to go on with.";
    return wrong(problemAt(start, `${hint} Write it, or N.C. for none.`, "N.C."));
  }
  const length = barLengthOf(ownMeter);
  // Without its meter, so that what is offered in its place leaves that standing.
  const said = { text: piece.text.slice(start.column - piece.column), column: start.column };
  const slots = readWords(played, said, length, ownMeter);
  if (!slots.ok) return slots;
  const kept = meterOfBar(length, meter);
  const beats = beatOf(ownMeter) / beatOf(kept);
  if (!Number.isInteger(beats) || shareOf(length, played.length, kept) === undefined) {
    const words = `A bar as long as ${first.text} counts as ${printMeter(kept)} in this tune.`;
    const meant = printOwnMeter(length, meter) + printBarWords(slots.value, length, meter);
    return wrong(problemAt(trimmed(piece), `${words} Write it so.`, meant));
  }
  const differs = length !== barLengthOf(meter);
  return { ok: true, value: { length: differs ? length : undefined, slots: slots.value } };
}

/** The last bar once more; what goes on into it from the bars before stands at its start. */
function sameAgain(bars: readonly BarDraft[]): BarDraft | undefined {
  const last = bars.at(-1);
  if (last === undefined || last.slots[0]?.at === 0) return last;
  const before = bars.slice(0, -1).flatMap(({ slots }) => slots);
  const held = before.at(-1);
  return held === undefined ? last : { ...last, slots: [{ ...held, at: ticks(0) }, ...last.slots] };
}

/** The slots of a bar of a given length, without a meter of its own and without `%`. */
export function readBarOf(
  text: string,
  length: Ticks,
  meter: Meter,
): Reading<readonly SlotText[], readonly LineProblem[]> {
  const words = wordsOf(text, 0);
  const same = words.find((word) => word.text === "%");
  if (same !== undefined) {
    return wrong(problemAt(same, "Write the chords here; % is for a whole chart."));
  }
  return readWords(words, { text, column: 0 }, length, meterOfBar(length, meter));
}

function readWords(
  words: readonly Word[],
  piece: Piece,
  length: Ticks,
  meter: Meter,
): Reading<readonly SlotText[], readonly LineProblem[]> {
  const problems: LineProblem[] = [];
  for (const word of words) {
    const chord = word.hold ? undefined : parseChord(word.text);
    if (chord?.ok === false) problems.push(chordProblem(word, chord.error));
  }
  if (problems.length > 0) return { ok: false, error: problems };
  const share = words.length === 0 ? undefined : shareOf(length, words.length, meter);
  if (share === undefined) return wrong(unevenBar(words, piece, length / beatOf(meter)));
  const slots = words.flatMap((word, i) =>
    word.hold ? [] : [{ at: ticks(i * share), chord: word.text }],
  );
  if (slots.length > slotsPerBarMax) {
    return wrong(problemAt(trimmed(piece), `A bar takes ${slotsPerBarMax} chords at most.`));
  }
  return { ok: true, value: slots };
}

function unevenBar(words: readonly Word[], piece: Piece, beats: number): LineProblem {
  const count = words.length === 1 ? "1 entry doesn't" : `${words.length} entries don't`;
  const hint = "Write one for each beat, with a dot for a beat that goes on.";
  const room = words.length < beats && Number.isInteger(beats);
  const typed = words.map(({ text }) => text);
  const filled = [...typed, ...Array.from({ length: room ? beats - typed.length : 0 }, () => ".")];
  return problemAt(
    trimmed(piece),
    `${count} share ${beats} beats evenly. ${hint}`,
    room ? filled.join(" ") : undefined,
  );
}

function wrong(problem: LineProblem): Reading<never, readonly LineProblem[]> {
  return { ok: false, error: [problem] };
}
