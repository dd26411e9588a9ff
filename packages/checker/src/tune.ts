/** A board prepared for the rules: its slots as they sound, what follows what, and who plays. */
import { type Board, type LaneId, laneIds, type SectionId } from "@halflap/board/board";
import type { SoundingChord } from "@halflap/theory/chord";
import { type Segment, segmentsOf } from "./segments.ts";

/** A segment whose chart symbol could be read as a sounding chord. */
export type Harmony = { readonly segment: Segment; readonly chord: SoundingChord };

export type Tune = {
  readonly board: Board;
  /** In chart order, each section once. */
  readonly segments: readonly Segment[];
  /** Bars run on within a section; past its end, by every pass of the form. */
  readonly after: (segment: Segment) => readonly Segment[];
  /** How a sentence names the player of a lane: "Mara" or "the upper lane". */
  readonly players: Readonly<Record<LaneId, string>>;
};

/** The tune of a board. */
export function tuneOf(board: Board): Tune {
  const segments = segmentsOf(board);
  const place = new Map(segments.map((segment, index) => [segment, index]));
  const starts = new Map<SectionId, Segment>();
  for (const segment of segments) {
    if (!starts.has(segment.section.id)) starts.set(segment.section.id, segment);
  }
  const followers = sectionsAfter(board, starts);
  return {
    board,
    segments,
    after: (segment) => {
      const next = segments[(place.get(segment) ?? segments.length) + 1];
      if (next !== undefined && next.section === segment.section) return [next];
      return followers.get(segment.section.id) ?? [];
    },
    players: playersOf(board),
  };
}

/** The chord that sounds in a segment; undefined for N.C. and for text that is no chord. */
export function soundingChord(segment: Segment): SoundingChord | undefined {
  const chord = segment.slot.chord;
  return chord?.kind === "chord" ? chord : undefined;
}

/** The nearest segments ahead on another root, one for each way the form goes on. */
export function nextRoots(tune: Tune, segment: Segment, chord: SoundingChord): readonly Harmony[] {
  const found: Harmony[] = [];
  const seen = new Set<Segment>();
  let ahead = tune.after(segment);
  while (ahead.length > 0) {
    const further: Segment[] = [];
    for (const next of ahead) {
      if (seen.has(next)) continue;
      seen.add(next);
      const nextChord = soundingChord(next);
      if (nextChord !== undefined && nextChord.rootClass !== chord.rootClass) {
        found.push({ segment: next, chord: nextChord });
      } else {
        further.push(...tune.after(next));
      }
    }
    ahead = further;
  }
  return found;
}

/** For each section, the first segments of those that follow it in the form, empty ones passed. */
function sectionsAfter(
  board: Board,
  starts: ReadonlyMap<SectionId, Segment>,
): ReadonlyMap<SectionId, readonly Segment[]> {
  const passes = board.form.filter((entry) => starts.has(entry.section));
  const after = new Map<SectionId, Set<Segment>>();
  passes.forEach((entry, index) => {
    const next = [entry.times > 1 ? entry : undefined, passes[index + 1]];
    const known = after.get(entry.section) ?? new Set();
    for (const follower of next) {
      const start = follower && starts.get(follower.section);
      if (start !== undefined) known.add(start);
    }
    after.set(entry.section, known);
  });
  return new Map([...after].map(([section, segments]) => [section, [...segments]]));
}

/** Names tell the players apart only when both are known and differ. */
function playersOf(board: Board): Readonly<Record<LaneId, string>> {
  const nameOf = (lane: LaneId): string | undefined => {
    const owner = board.lanes[lane].owner;
    return board.members.find((member) => member.id === owner)?.name;
  };
  const [upper, lower] = laneIds.map(nameOf);
  const same = upper === lower;
  return {
    upper: upper === undefined || same ? "the upper lane" : upper,
    lower: lower === undefined || same ? "the lower lane" : lower,
  };
}
