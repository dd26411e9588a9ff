/** Notes of a fill or line that are held against the other part: shortened, or left out. */
import type { Fill, FillNote } from "@halflap/board/playing";
import { pitchClass, ticks, ticksPerQuarter } from "@halflap/theory/units";
import { beatWords } from "../beat-words.ts";
import { listed, noteWord } from "../words.ts";
import type { Candidate, Situation, WayOutMaker } from "./candidate.ts";
import { weights } from "./weights.ts";

/** A note that rubs, as long as it may stay. */
type Rubbing = { readonly note: FillNote; readonly most: number; readonly name: string };

/** The fill or line of the finding without its rub: its rubbing notes end early, or go. */
export const rubbingNotes: WayOutMaker = (situation) =>
  [...rubbingByFill(situation)].flatMap(([fill, rubbing]) => [
    ...ended(fill, rubbing, situation),
    ...leftOut(fill, rubbing, situation),
  ]);

/** The lane's notes that the finding names and that sound while it lasts. */
function rubbingByFill({
  finding,
  lane,
  passages,
  places,
  tune,
}: Situation): ReadonlyMap<Fill, readonly Rubbing[]> {
  const found = new Map<Fill, Rubbing[]>();
  const pass = passages.find(({ passage }) => passage.bars.some((bar) => !bar.lanes[lane].rests));
  const bars = pass?.passage.bars ?? [];
  const rubs = finding.spans.flatMap(({ bar, start, end }) => {
    const played = bars.find((each) => each.bar.id === bar);
    return played ? [{ start: played.start + start, end: played.start + end }] : [];
  });
  for (const { start, lanes } of bars) {
    for (const attack of lanes[lane].attacks) {
      if (attack.kind !== "note") continue;
      const pitch = attack.notes[0]?.pitch;
      const isNamed = finding.notes.some(
        (note) => note.lane === lane && note.slot === attack.slot && note.pitch === pitch,
      );
      const at = start + attack.at;
      const rub = rubs.find((each) => each.end > at);
      if (pitch === undefined || !isNamed || rub === undefined) continue;
      const chord = places.find(({ slot }) => slot.id === attack.slot)?.chord;
      const rubbing = {
        note: attack.note,
        most: Math.max(0, rub.start - at) + Math.floor(tune.limits.rub * ticksPerQuarter),
        name: noteWord(pitchClass(pitch), chord, tune.key),
      };
      found.set(attack.fill, [...(found.get(attack.fill) ?? []), rubbing]);
    }
  }
  return found;
}

/** Each ends when it has rubbed for as long as a note that passes. */
function ended(
  fill: Fill,
  rubbing: readonly Rubbing[],
  situation: Situation,
): readonly Candidate[] {
  const most = new Map(rubbing.map((each) => [each.note, each.most]));
  const notes = fill.notes.map((note) => {
    const length = most.get(note);
    if (length === undefined || length < 1) return note;
    return { ...note, length: ticks(Math.min(note.length, length)), letRing: false };
  });
  const longest = Math.max(...rubbing.map((each) => each.most));
  const beats = beatWords(Math.round((longest / situation.tune.beat) * 100) / 100);
  return offered({ ...fill, notes }, `End ${named(rubbing)} after ${beats}`, 0, situation);
}

/** What goes on from a note that goes is plucked itself. */
function leftOut(
  fill: Fill,
  rubbing: readonly Rubbing[],
  situation: Situation,
): readonly Candidate[] {
  const gone = new Set(rubbing.map(({ note }) => note));
  const notes = fill.notes.flatMap((note): readonly FillNote[] => {
    if (gone.has(note)) return [];
    const before = fill.notes.filter(
      ({ string, start }) => string === note.string && start < note.start,
    );
    const last = before.at(-1);
    const isCutOff = note.way !== "bend" && last !== undefined && gone.has(last);
    return [isCutOff ? { ...note, way: "pluck" } : note];
  });
  if (notes.length === 0) return [];
  return offered({ ...fill, notes }, `Leave out ${named(rubbing)}`, weights.note, situation);
}

function named(rubbing: readonly Rubbing[]): string {
  return `the ${listed([...new Set(rubbing.map(({ name }) => name))])}`;
}

function offered(
  fill: Fill,
  what: string,
  loss: number,
  { lane, board }: Situation,
): readonly Candidate[] {
  const bars = board.sections.flatMap((section) => section.bars);
  const number = bars.find(({ id }) => id === fill.bar)?.number;
  if (number === undefined) return [];
  const words = `${what} in the ${fill.kind} of bar ${number}`;
  return [{ kind: "fill note", lane, edits: [{ kind: "fill", fill }], words, loss }];
}
