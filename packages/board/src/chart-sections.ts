/** The lines after the heading, read into sections with their bars, and the form between them. */
import { wordsOf } from "./bar-text.ts";
import type { Meter } from "./board.ts";
import { type BarDraft, readBar } from "./chart-bars.ts";
import type { ChartDraft, SectionDraft } from "./chart-draft.ts";
import { nameIn, placeOf, playedIn, type Report, readForms, unknownSection } from "./chart-form.ts";
import {
  type BarLinePiece,
  type ChartLine,
  cutAtBarLines,
  type Piece,
  timesOf,
  trimmed,
} from "./chart-lines.ts";
import { isSameName, looksLikeChords } from "./chart-names.ts";
import { type ChartProblem, type LineProblem, problemAt } from "./chart-problem.ts";
import { barsMax, formEntriesMax, nameMax, sectionsMax, timesMax } from "./limits.ts";

type OpenSection = {
  readonly name: string;
  /** Where its name stands, and whether a colon says that it is one; "Tune" has none. */
  readonly named:
    | { readonly piece: Piece; readonly line: ChartLine; readonly isSure: boolean }
    | undefined;
  readonly bars: BarDraft[];
  /** The name of the section it borrows from, and where that is said. */
  readonly from: { readonly piece: Piece; readonly line: ChartLine } | undefined;
  /** From which bar a repeat sign plays again, and where that was opened. */
  repeatFrom: number;
  opened: { readonly piece: Piece; readonly line: ChartLine } | undefined;
};

export type Music = Pick<ChartDraft, "sections" | "form"> & {
  readonly problems: readonly ChartProblem[];
};

/**
 * Reads all lines to the end, whatever is wrong on the way; bars before any name make a section
 * "Tune".
 */
export function readMusic(lines: readonly ChartLine[], meter: Meter): Music {
  const problems: ChartProblem[] = [];
  const report: Report = (line, ...found) => {
    for (const problem of found) {
      problems.push({ ...problem, line: line.number, column: problem.column + 1 });
    }
  };
  const sections: OpenSection[] = [];
  for (const line of lines.filter(({ kind }) => kind !== "form")) {
    const { name, pieces } =
      line.kind === "bars" ? cutAtBarLines(line.text) : { name: wholeLine(line), pieces: [] };
    if (name !== undefined) {
      closeRepeat(sections.at(-1), report);
      report(line, ...openSection(sections, name, line));
    }
    if (pieces.length === 0) continue;
    if (sections.length === 0) sections.push(newSection("Tune", undefined, undefined));
    report(line, ...addPieces(sections, pieces, line, meter));
  }
  closeRepeat(sections.at(-1), report);
  tellTwins(sections, report);
  const names = sections.map(({ name }) => name);
  const resolved = sections.map((section): SectionDraft => {
    const { name, bars, from } = section;
    if (from === undefined) return { name, borrows: undefined, bars };
    const borrows = placeOf(names, from.piece.text);
    if (borrows === undefined) report(from.line, unknownSection(from.piece, names));
    return { name, borrows, bars };
  });
  for (const [place, { from }] of sections.entries()) {
    if (from === undefined || !leadsBack(resolved, place)) continue;
    report(from.line, problemAt(from.piece, "These sections borrow from each other in a circle."));
  }
  const form = readForms(lines, resolved, report);
  tellStray(sections, form, report);
  const bars = countBars(sections);
  if (sections.length > sectionsMax || bars > barsMax || form.length > formEntriesMax) {
    const most = `${sectionsMax} sections, ${barsMax} bars and ${formEntriesMax} form entries`;
    problems.push({ line: 1, column: 1, read: "", words: `A chart takes ${most} at most.` });
  }
  return { sections: resolved, form, problems };
}

function newSection(
  name: string,
  named: OpenSection["named"],
  from: OpenSection["from"],
): OpenSection {
  return { name, named, bars: [], from, repeatFrom: 0, opened: undefined };
}

function wholeLine(line: ChartLine): Piece {
  return { text: line.text, column: 0 };
}

function openSection(sections: OpenSection[], piece: Piece, line: ChartLine): LineProblem[] {
  if (sections.length > sectionsMax) return [];
  const typed = line.typed.slice(piece.column, piece.column + piece.text.length);
  const [own = "", other] = typed.split("=");
  const typedName = nameIn(own);
  const { name, times } = playedIn(typedName);
  if (looksLikeChords(piece.text)) {
    const chords = wordsOf(piece.text, 0).map(({ text }) => text);
    const meant = `| ${chords.join(" | ")} |`;
    return [problemAt(trimmed(piece), "These look like chords without bar lines.", meant)];
  }
  if (timesOf(typedName) !== undefined) {
    const words = `A count stands right after its repeat sign: :| ${typedName}`;
    return [problemAt(trimmed(piece), words)];
  }
  if (name === "" || name.length > nameMax) {
    return [problemAt(trimmed(piece), `A section's name has 1 to ${nameMax} characters.`)];
  }
  const said = piece.text.slice(0, own.length);
  const plain = said.replace(/\s*:\s*$/, "");
  const place = trimmed({ text: plain, column: piece.column });
  const named = { piece: place, line, isSure: plain !== said };
  const from =
    other === undefined
      ? undefined
      : trimmed({ text: other, column: piece.column + own.length + 1 });
  sections.push(newSection(name, named, from === undefined ? undefined : { piece: from, line }));
  if (name === typedName) return [];
  const words = "A name does not end in a count. How often it is played, the form says:";
  return [problemAt(place, `${words} Form: ${name} x${times}`, name)];
}

/**
 * Tells each line before the music that is read as the name of a section, though nothing says that
 * it is one: no bars, no colon, no form.
 */
function tellStray(
  sections: readonly OpenSection[],
  form: ChartDraft["form"],
  report: Report,
): void {
  const music = sections.findIndex(({ bars }) => bars.length > 0);
  for (const [place, { named, from }] of sections.slice(0, Math.max(music, 0)).entries()) {
    if (named === undefined || named.isSure || from !== undefined) continue;
    if (form.some(({ section }) => section === place)) continue;
    const words = `"${named.piece.text}" is no title, no settings, and has no bars.`;
    const hint = "Leave it out, put commas between settings, or a colon after a section's name.";
    report(named.line, problemAt(named.piece, `${words} ${hint}`));
  }
}

/** Tells each section that has the name of one before it, and offers a name that is free. */
function tellTwins(sections: readonly OpenSection[], report: Report): void {
  for (const [place, { name, named }] of sections.entries()) {
    const twin = sections.find((section) => isSameName(section.name, name));
    if (named === undefined || twin === sections[place]) continue;
    const words = `There is a ${twin?.name} already: give this one its own name.`;
    report(named.line, problemAt(named.piece, words, freeName(name, sections)));
  }
}

/** "Verse 3", where there is a second. */
function freeName(name: string, sections: readonly OpenSection[]): string {
  const plain = name
    .replace(/\s+\d+$/, "")
    .slice(0, nameMax - 10)
    .trim();
  for (let i = 2; ; i += 1) {
    const free = `${plain} ${i}`;
    if (!sections.some((section) => isSameName(section.name, free))) return free;
  }
}

/** Reads a line's bars into the last section, writing out what is repeated. */
function addPieces(
  sections: readonly OpenSection[],
  pieces: readonly BarLinePiece[],
  line: ChartLine,
  meter: Meter,
): LineProblem[] {
  const section = sections.at(-1);
  if (section === undefined) return [];
  const problems: LineProblem[] = [];
  if (section.from !== undefined) {
    const words = `${section.name} borrows its chords, so it can't have bars of its own.`;
    return pieces.slice(0, 1).map((piece) => problemAt(trimmed(piece), words));
  }
  for (const piece of pieces) {
    if (piece.kind === "open") {
      section.repeatFrom = section.bars.length;
      section.opened = { piece, line };
    } else if (piece.kind === "close") {
      problems.push(...repeat(section, piece));
    } else if (countBars(sections) <= barsMax) {
      const before = sections.filter(({ bars }) => bars.length > 0).at(-1)?.bars ?? [];
      const bar = readBar(piece, meter, before, section.bars.length === 0);
      // A bar that can't be read still counts, so that what follows it isn't blamed for it.
      section.bars.push(bar.ok ? bar.value : { length: undefined, slots: [] });
      if (!bar.ok) problems.push(...bar.error);
    }
  }
  return problems;
}

function repeat(section: OpenSection, sign: Piece & { readonly times: number }): LineProblem[] {
  section.opened = undefined;
  if (sign.times < 1 || sign.times > timesMax) {
    return [problemAt(sign, `A repeat is played up to ${timesMax} times.`)];
  }
  const again = section.bars.slice(section.repeatFrom);
  for (let i = 1; i < sign.times && section.bars.length <= barsMax; i += 1) {
    section.bars.push(...again);
  }
  section.repeatFrom = section.bars.length;
  return [];
}

function closeRepeat(section: OpenSection | undefined, report: Report): void {
  const opened = section?.opened;
  if (opened === undefined) return;
  const words = "This repeat is opened and never closed.";
  report(opened.line, problemAt(opened.piece, `${words} Write :| where it goes back.`, ":|"));
}

function leadsBack(sections: readonly SectionDraft[], place: number): boolean {
  let next = sections[place]?.borrows;
  for (let steps = 0; steps < sections.length && next !== place; steps += 1) {
    next = next === undefined ? undefined : sections[next]?.borrows;
  }
  return next === place;
}

function countBars(sections: readonly OpenSection[]): number {
  return sections.reduce((sum, { bars }) => sum + bars.length, 0);
}
