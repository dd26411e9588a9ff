/**
 * Chart text in and out, as SPEC.md describes it: plain lines as musicians write them in a message.
 */
import { type Key, parseKey, printKey } from "@halflap/theory/key";
import { parseChord } from "@halflap/theory/parse-chord";
import { printBarWords, printOwnMeter } from "./bar-text.ts";
import type { Bar, Board, Meter, Section } from "./board.ts";
import type { ChartDraft, SectionDraft } from "./chart-draft.ts";
import { headingOf, readSettingsLine, type WrittenSettings } from "./chart-heading.ts";
import { linesOf } from "./chart-lines.ts";
import { printedNames, printedTitle } from "./chart-names.ts";
import type { ChartProblem } from "./chart-problem.ts";
import { readMusic } from "./chart-sections.ts";
import { plainKey } from "./chart-state.ts";
import { type BoardCopy, copyFormat, copyVersion } from "./copy.ts";
import { plainLane } from "./lane-copy.ts";
import { chartTextMax, titleMax } from "./limits.ts";
import { commonTime, printMeter } from "./meter.ts";
import { printBarText, slotText } from "./one-bar.ts";
import { oneLine } from "./one-line.ts";
import { plainSong, unsaidSettings } from "./song-shape.ts";

const barsPerLine = 4;

/** The chart of a text, or everything that is wrong with it, in the order of its lines. */
export function parseChartText(text: string): {
  readonly draft: ChartDraft | undefined;
  readonly problems: readonly ChartProblem[];
} {
  if (text.length > chartTextMax) {
    const words = `A chart text takes ${chartTextMax / 1024} KiB at most.`;
    return { draft: undefined, problems: [{ line: 1, column: 1, read: "", words }] };
  }
  const heading = headingOf(linesOf(text));
  const { settings, problems: first } = readSettingsLine(heading.settings?.text ?? "");
  const meter = settings.meter ?? commonTime;
  const music = readMusic(heading.rest, meter);
  const title = oneLine(heading.title?.typed.trim() ?? "", chartTextMax) ?? "";
  const problems = [
    ...first.map((problem) => ({
      ...problem,
      line: heading.settings?.number ?? 1,
      column: problem.column + 1,
    })),
    ...music.problems,
  ];
  if (title.length > titleMax) {
    const words = `A title has ${titleMax} characters at most.`;
    problems.push({ line: heading.title?.number ?? 1, column: 1, read: title, words });
  }
  if (problems.length === 0 && music.sections.every(({ bars }) => bars.length === 0)) {
    const words = "There are no bars in this text. Put the chords between bar lines: | F7 | C7 |";
    problems.push({ line: 1, column: 1, read: "", meant: "| F7 | C7 |", words });
  }
  if (problems.length > 0) {
    problems.sort((a, b) => a.line - b.line || a.column - b.column);
    return { draft: undefined, problems };
  }
  const { sections, form } = music;
  return { draft: { title, ...withDefaults(settings, sections), sections, form }, problems };
}

/**
 * A new board with this chart and two lanes without a grip, on plain guitars; `makeId` names its
 * parts.
 */
export function draftCopy(draft: ChartDraft, makeId: () => string): BoardCopy {
  const ids = draft.sections.map(() => makeId());
  const idAt = (place: number) => ids[place] ?? makeId();
  const { title, key, tempo, meter, feel, hasBass } = draft;
  return {
    format: copyFormat,
    version: copyVersion,
    ...{ title, key, tempo, meter, feel, hasBass },
    ...unsaidSettings,
    sections: draft.sections.map(({ name, borrows, bars }, place) => ({
      id: idAt(place),
      name,
      ...(borrows === undefined ? {} : { borrows: idAt(borrows) }),
      bars: bars.map(({ length, slots }) => ({
        id: makeId(),
        ...(length === undefined ? {} : { length }),
        slots: slots.map(({ at, chord }) => ({ id: makeId(), at, chord })),
      })),
    })),
    form: draft.form.map(({ section, times }) => ({
      id: makeId(),
      section: idAt(section),
      times,
    })),
    silences: [],
    setAside: { bars: [], slots: [] },
    ...plainSong(),
    lanes: { upper: plainLane(), lower: plainLane() },
  };
}

/** The whole chart as text; reading it gives the same chart again. Grips are no part of it. */
export function printChartText(board: Board): string {
  const names = printedNames(board.sections);
  const nameOf = (id: Section["id"]) => names.get(id) ?? "";
  const title = printedTitle(board.title);
  const { key, tempo, meter, feel, hasBass } = board;
  const settings = [printKey(key), `${tempo}`, printMeter(meter), feel];
  if (!hasBass) settings.push("no bass");
  const parts = board.sections.map((section) => {
    const name = nameOf(section.id);
    if (section.borrows !== undefined) return [`${name} = ${nameOf(section.borrows)}`];
    // Without bars, only the colon tells a section from other words before the music.
    if (section.bars.length === 0) return [`${name}:`];
    return [name, ...barLines(section.bars, meter)];
  });
  const form = board.form.map(({ section, times }) =>
    times === 1 ? nameOf(section) : `${nameOf(section)} x${times}`,
  );
  const inTurn = board.form.every(({ id }) => id.startsWith("~"));
  const head = [...(title === "" ? [] : [title]), settings.join(", ")];
  const blocks = [head, ...parts, ...(inTurn ? [] : [[`Form: ${form.join(", ")}`]])];
  return `${blocks.map((block) => block.join("\n")).join("\n\n")}\n`;
}

function barLines(bars: readonly Bar[], meter: Meter): readonly string[] {
  const texts = bars.map((bar, i) => {
    const own = printOwnMeter(bar.length, meter);
    if (i > 0) return own + printBarText(bar, meter);
    return own + printBarWords(bar.slots.map(slotText), bar.length, meter);
  });
  const lines = Math.ceil(texts.length / barsPerLine);
  return Array.from({ length: lines }, (_, i) => {
    return `| ${texts.slice(i * barsPerLine, (i + 1) * barsPerLine).join(" | ")} |`;
  });
}

/** What a text leaves out: 120, 4/4, straight, with bass, in the key of the first chord. */
function withDefaults(written: WrittenSettings, sections: readonly SectionDraft[]) {
  return {
    key: written.key ?? firstKey(sections),
    tempo: written.tempo ?? 120,
    meter: written.meter ?? commonTime,
    feel: written.feel ?? "straight",
    hasBass: written.hasBass ?? true,
  } as const;
}

function firstKey(sections: readonly SectionDraft[]): Key {
  const chords = sections.flatMap(({ bars }) => bars.flatMap(({ slots }) => slots));
  for (const { chord } of chords) {
    const read = parseChord(chord);
    if (!read.ok || read.value.kind === "no-chord") continue;
    const minor = read.value.family === "minor" || read.value.family === "half-diminished";
    const key = parseKey(`${read.value.root} ${minor ? "minor" : "major"}`);
    if (key.ok) return key.value;
  }
  return plainKey;
}
