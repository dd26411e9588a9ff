/** The form lines of a chart text, and the names by which they and borrowing find sections. */
import type { ChartDraft, SectionDraft } from "./chart-draft.ts";
import { partsOf } from "./chart-heading.ts";
import { type ChartLine, type Piece, trimmed } from "./chart-lines.ts";
import { isSameName } from "./chart-names.ts";
import { type LineProblem, nearest, problemAt } from "./chart-problem.ts";
import { formBarsMax, nameMax, timesMax } from "./limits.ts";
import { oneLine } from "./one-line.ts";

/** Takes what is wrong with a line. */
export type Report = (line: ChartLine, ...found: readonly LineProblem[]) => void;

/** The entries of all form lines: sections by name, how often each. */
export function readForms(
  lines: readonly ChartLine[],
  sections: readonly SectionDraft[],
  report: Report,
): ChartDraft["form"] {
  const forms = lines.filter(({ kind }) => kind === "form");
  const names = sections.map(({ name }) => name);
  const entries = forms.flatMap((line) => readForm(line, names, report));
  const counts = sections.map((_, place) => barsIn(sections, place));
  const all = entries.reduce((sum, { section, times }) => sum + (counts[section] ?? 0) * times, 0);
  const [first] = forms;
  if (first !== undefined && all > formBarsMax) {
    const words = `This form plays ${all} bars: ${formBarsMax} are the most.`;
    report(first, problemAt(trimmed({ text: first.text, column: 0 }), words));
  }
  return entries;
}

/** How many bars a section plays, its own or those that it borrows. */
function barsIn(sections: readonly SectionDraft[], place: number): number {
  let section = sections[place];
  for (let steps = 0; steps < sections.length && section?.borrows !== undefined; steps += 1) {
    section = sections[section.borrows];
  }
  return section?.bars.length ?? 0;
}

function readForm(line: ChartLine, names: readonly string[], report: Report): ChartDraft["form"] {
  const start = /^\s*form\s*:/i.exec(line.text)?.[0].length ?? 0;
  const entries = partsOf(
    line.text.slice(start).replace(/->|→/g, (arrow) => ",".padEnd(arrow.length)),
  );
  return entries.flatMap(({ text, column }) => {
    const piece = { text, column: column + start };
    const whole = placeOf(names, text);
    if (whole !== undefined) return [{ section: whole, times: 1 }];
    const { name, times } = playedIn(text);
    const section = placeOf(names, name);
    const named = { text: name, column: piece.column + text.indexOf(name) };
    if (section === undefined) report(line, unknownSection(named, names));
    else if (times < 1 || times > timesMax) {
      report(line, problemAt(piece, `A section is played 1 to ${timesMax} times in a row.`));
    } else return [{ section, times }];
    return [];
  });
}

/** "Chorus x2" and "2x Chorus"; what is too long for a name is not taken apart. */
export function playedIn(text: string): { readonly name: string; readonly times: number } {
  const count = /^(\d+)\s*[x×]\s+|\s+(?:[x×]\s*(\d+)|(\d+)\s*[x×])$/i;
  const match = text.length > 2 * nameMax ? null : count.exec(text);
  if (match === null) return { name: text, times: 1 };
  return {
    name: text.replace(count, "").trim(),
    times: Number(match[1] ?? match[2] ?? match[3]),
  };
}

/** What to say of a name that no section has. */
export function unknownSection(piece: Piece, names: readonly string[]): LineProblem {
  const meant = nearest(piece.text.trim(), names);
  const guess = meant === undefined ? "" : ` Did you mean ${meant}?`;
  return problemAt(trimmed(piece), `No section is called "${piece.text.trim()}".${guess}`, meant);
}

/** Which section has this name, if one has. */
export function placeOf(names: readonly string[], name: string): number | undefined {
  const place = names.findIndex((each) => isSameName(each, nameIn(name)));
  return place < 0 ? undefined : place;
}

/** A section's name as it is kept: without spaces around it, and without a colon after it. */
export function nameIn(typed: string): string {
  const line = oneLine(typed, typed.length) ?? "";
  return line.replace(/\s+/g, " ").trim().replace(/\s*:$/, "");
}
