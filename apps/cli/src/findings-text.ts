/** Findings for people, by section and bars, and for programs, as JSON. */
import { type Board, type Lane, type LaneId, laneIds, type SlotId } from "@halflap/board/board";
import { countBySeverity, type FindingCount } from "@halflap/checker/count";
import { type Finding, severities } from "@halflap/checker/finding";
import type { WayOut } from "@halflap/checker/ways-out";
import { pitchWord } from "@halflap/checker/words";
import type { SoundingChord } from "@halflap/theory/chord";

/** What could be done about a finding; empty where nobody asked. */
export type WaysFor = (finding: Finding) => readonly WayOut[];

/** Pitches of one lane that are listed one by one; more are given by their ends. */
const pitchesListedMax = 6;

/** The findings as a text to read, with the count in its last line. */
export function printFindings(
  board: Board,
  findings: readonly Finding[],
  waysFor: WaysFor,
): string {
  const title = board.title === "" ? "" : `${board.title}\n\n`;
  if (laneIds.every((lane) => isEmpty(board.lanes[lane]))) {
    return `${title}No lane holds a grip or a note, so there is nothing to check yet.\n`;
  }
  let place = "";
  const blocks = findings.map((finding) => {
    const here = placeOf(board, finding);
    const heading = here === place ? "" : `${here}\n`;
    place = here;
    return `${heading}${printFinding(board, finding, waysFor(finding))}`;
  });
  const body = blocks.length === 0 ? "" : `${blocks.join("\n")}\n`;
  return `${title}${body}${printCount(countBySeverity(findings))}\n`;
}

/** The findings with the place of each, and the count. */
export function printFindingsJson(
  board: Board,
  findings: readonly Finding[],
  waysFor: WaysFor,
): string {
  const report = {
    title: board.title,
    count: countBySeverity(findings),
    findings: findings.map((finding) => ({
      place: placeOf(board, finding),
      ...finding,
      ways: waysFor(finding).map(wayForPrograms),
    })),
  };
  return `${JSON.stringify(report, undefined, 2)}\n`;
}

function isEmpty({ grips, fills }: Lane): boolean {
  return grips.size === 0 && fills.size === 0;
}

function printFinding(board: Board, finding: Finding, ways: readonly WayOut[]): string {
  const { severity, rule, words, silenced } = finding;
  const notes = printNotes(board, finding);
  const lines = [
    `  ${(finding.isPraise ? "good" : severity).padEnd(4)}  ${rule}  ${words}`,
    ...[
      ...(notes === "" ? [] : [notes]),
      ...(silenced === undefined ? [] : [`silenced: ${silenced}`]),
      ...ways.map((way) => `way out, ${way.lane} lane: ${way.words}`),
    ].map((line) => `             ${line}`),
  ];
  return `${lines.join("\n")}\n`;
}

/** Findings by their ids; grips are in the edits. */
function wayForPrograms({ lane, words, edits, removes, causes, motion, comfort }: WayOut) {
  const ids = (findings: readonly Finding[]) => findings.map(({ id }) => id);
  return { lane, words, edits, removes: ids(removes), causes: ids(causes), motion, comfort };
}

/** "Verse, bars 5 to 12"; bars are counted through the chart. */
export function placeOf(board: Board, finding: Finding): string {
  for (const section of board.sections) {
    const numbers = section.bars
      .filter((bar) => finding.bars.includes(bar.id))
      .map((bar) => bar.number);
    const [first] = numbers;
    const last = numbers.at(-1);
    if (first === undefined || last === undefined) continue;
    const bars = first === last ? `bar ${first}` : `bars ${first} to ${last}`;
    return section.name === "" ? bars : `${section.name}, ${bars}`;
  }
  return "";
}

/** Each pitch once, spelled as the chord of its slot spells it. */
function printNotes(board: Board, finding: Finding): string {
  const parts = laneIds.flatMap((lane) => {
    const names = pitchNames(board, finding, lane);
    if (names.length === 0) return [];
    const isShort = names.length <= pitchesListedMax;
    return [`${lane} ${isShort ? names.join(" ") : `${names[0]} to ${names.at(-1)}`}`];
  });
  return parts.join("; ");
}

function pitchNames(board: Board, finding: Finding, lane: LaneId): readonly string[] {
  const notes = finding.notes.filter((note) => note.lane === lane);
  const bySlot = new Map(notes.map(({ slot, pitch }) => [pitch, slot]));
  return [...bySlot]
    .sort(([a], [b]) => a - b)
    .map(([pitch, slot]) => pitchWord(pitch, chordAt(board, slot), board.key));
}

function chordAt(board: Board, slot: SlotId): SoundingChord | undefined {
  const slots = board.sections.flatMap(({ bars }) => bars.flatMap((bar) => bar.slots));
  const chord = slots.find(({ id }) => id === slot)?.chord;
  return chord?.kind === "chord" ? chord : undefined;
}

/** "2 stops, 1 fix, 3 good": what there is of each kind. */
export function printCount(count: FindingCount): string {
  const plural = { stop: "stops", fix: "fixes", look: "looks", note: "notes" } as const;
  const parts = severities
    .filter((severity) => count[severity] > 0)
    .map((severity) => `${count[severity]} ${count[severity] === 1 ? severity : plural[severity]}`);
  if (count.praise > 0) parts.push(`${count.praise} good`);
  if (count.silenced > 0) parts.push(`${count.silenced} silenced`);
  return parts.length === 0 ? "Nothing to flag." : parts.join(", ");
}
