/** R10 in time: a held note of a fill or line rubs against what the other part sounds meanwhile. */
import { type LaneId, laneIds } from "@halflap/board/board";
import { remembered } from "@halflap/board/remembered";
import { type MidiNote, pitchClass, ticks } from "@halflap/theory/units";
import type { FigureAttack } from "@halflap/timeline/timeline";
import { barByBar, isSamePassage } from "../bar-by-bar.ts";
import { joined, meeting, type Stretch } from "../figures.ts";
import type { FindingNote } from "../finding.ts";
import type { Hit } from "../hit.ts";
import type { Segment } from "../segments.ts";
import { type HeldStrike, heldStrikes } from "../struck.ts";
import { type CheckedBar, soundingChord, type Tune } from "../tune.ts";
import { listed, noteWord, sentence } from "../words.ts";
import { isLong, rubsBetween } from "./r10-rub.ts";

/** A pitch that a lane sounds for a while, in ticks from the start of the passage. */
export type Sound = Stretch & {
  readonly lane: LaneId;
  readonly segment: Segment;
  readonly pitch: MidiNote;
};

/** Two sounds that rub, while they do. */
type HeldRub = Stretch & {
  readonly note: Sound;
  readonly against: Sound;
  readonly distance: number;
};

/**
 * A hit wherever a note of a figure is held, for longer than a note that passes, against a note of
 * the other part that it rubs with. A bent note is never in one place, and what two grips do is
 * said about their slot.
 */
export const fillRub = barByBar((bar, ahead, tune) => {
  if (laneIds.every((lane) => bar.played.lanes[lane].figures.length === 0)) return [];
  const bars = [bar, ...ahead.filter((next) => isSamePassage(bar, next))];
  const rubs = laneIds.flatMap((lane) =>
    heldNotes(bar, lane, tune).flatMap((note) => rubsOf(note, bars, tune)),
  );
  const starts = new Map<number, HeldRub[]>();
  for (const rub of rubs) starts.set(rub.start, [...(starts.get(rub.start) ?? []), rub]);
  return [...starts.values()].map((together) => hitOf(together, tune));
});

/** The notes of a lane's figures that are struck in the bar and last long enough to rub. */
export function heldNotes(
  { played, segments }: CheckedBar,
  lane: LaneId,
  tune: Tune,
): readonly Sound[] {
  const { attacks, figures } = played.lanes[lane];
  const isHeld = (attack: FigureAttack) => attack.note.way !== "bend";
  return attacks.flatMap((attack) => {
    if (attack.kind !== "note" || !isHeld(attack)) return [];
    const segment = segments.find(({ slot }) => slot.id === attack.slot);
    const rings = figures.find(({ fill }) => fill === attack.fill)?.end ?? 0;
    const end = Math.max(attack.at + attack.note.length, attack.note.letRing ? rings : 0);
    if (segment === undefined || !isLong(end - attack.at, tune.limits)) return [];
    const stretch = { start: ticks(played.start + attack.at), end: ticks(played.start + end) };
    return attack.notes.map(({ pitch }) => ({ lane, segment, pitch, ...stretch }));
  });
}

/** What the note rubs with in the other lane; figures of one bar are compared from the upper. */
function rubsOf(note: Sound, bars: readonly CheckedBar[], tune: Tune): readonly HeldRub[] {
  const other = note.lane === "upper" ? "lower" : "upper";
  const apart = note.lane === "upper" ? bars : bars.slice(1);
  const inFigures = apart.flatMap((bar) => heldNotes(bar, other, tune));
  const inGrips = bars.flatMap((bar) => gripSounds(bar, note, other));
  return [...inFigures, ...inGrips].flatMap((against) => {
    const shared = meeting(note, against);
    if (shared === undefined || !isLong(shared.end - shared.start, tune.limits)) return [];
    const chord = soundingChord(against.segment);
    const pitches = { [note.lane]: [note.pitch], [other]: [against.pitch] };
    const [rub] = rubsBetween({ upper: [], lower: [], ...pitches }, chord, tune);
    if (rub === undefined || rub.declared) return [];
    return [{ ...shared, note, against, distance: rub.distance }];
  });
}

/** The other lane's grips as they sound; none where the note is of its own grip too. */
function gripSounds(bar: CheckedBar, note: Sound, lane: LaneId): readonly Sound[] {
  return bar.segments.flatMap((segment) => {
    const { start, slot } = segment;
    const isMet = note.start < start + slot.length && start < note.end;
    if (!isMet || segment[note.lane]?.includes(note.pitch)) return [];
    const pitches = [...new Set(segment[lane])];
    return gripStretches(bar, segment, lane).flatMap((stretch) =>
      pitches.map((pitch) => ({ lane, segment, pitch, ...stretch })),
    );
  });
}

/**
 * The parts of a slot in which the lane's grip sounds: from a stroke to what ends it, its own
 * figures left out. Strokes in a row are one sound.
 */
export function gripStretches(bar: CheckedBar, segment: Segment, lane: LaneId): readonly Stretch[] {
  const strokes = strikesIn(bar)[lane].filter(
    ({ strike }) => strike.kind === "stroke" && strike.slot === segment.slot.id,
  );
  const sounding = joined(strokes.flatMap(soundOf));
  return freeStretches(bar, segment, lane).flatMap((free) =>
    sounding.flatMap((sound) => meeting(free, sound) ?? []),
  );
}

/** A ghost stroke is no sound. */
function soundOf({ strike, start, end }: HeldStrike): readonly Stretch[] {
  return strike.top === undefined ? [] : [{ start: ticks(start), end: ticks(end) }];
}

/** What is struck in a bar and the one before, whose push may sound in it. */
const strikesIn = remembered(({ before, played }: CheckedBar) => {
  const bars = before === undefined ? [played] : [before, played];
  const struck = { bars, length: ticks(played.start + played.bar.length) };
  return { upper: heldStrikes(struck, "upper"), lower: heldStrikes(struck, "lower") };
});

/** The parts of a slot in which the lane plays no figure. */
function freeStretches({ played }: CheckedBar, { slot }: Segment, lane: LaneId) {
  const free: Stretch[] = [];
  let from: number = slot.start;
  const until = slot.start + slot.length;
  const at = (start: number, end: number) => {
    if (end > start)
      free.push({ start: ticks(played.start + start), end: ticks(played.start + end) });
  };
  for (const { start, end } of played.lanes[lane].figures) {
    at(from, Math.min(start, until));
    from = Math.max(from, end);
  }
  at(from, until);
  return free;
}

function hitOf(rubs: readonly HeldRub[], tune: Tune): Hit {
  const start = Math.min(...rubs.map((rub) => rub.start));
  const nearest = Math.min(...rubs.map(({ distance }) => distance));
  const sounds = rubs.flatMap(({ note, against }) => [note, against]);
  const segments = [...new Set(sounds.map(({ segment }) => segment))];
  return {
    rule: "R10",
    severity: "fix",
    lanes: laneIds,
    segments: segments.sort((a, b) => a.start - b.start),
    span: { start: ticks(start), end: ticks(Math.max(...rubs.map(({ end }) => end))) },
    notes: notesFor(sounds),
    measured: nearest,
    threshold: nearest,
    words: wordsFor(rubs, tune),
  };
}

function notesFor(sounds: readonly Sound[]): readonly FindingNote[] {
  const notes = sounds.map(({ lane, segment, pitch }) => ({ lane, slot: segment.slot.id, pitch }));
  return [...new Map(notes.map((note) => [Object.values(note).join(), note])).values()];
}

function wordsFor(rubs: readonly HeldRub[], { players, key }: Tune): string {
  const pairs = rubs.map(({ note, against }) => {
    const word = ({ pitch, segment }: Sound) =>
      noteWord(pitchClass(pitch), soundingChord(segment), key);
    const whose = `${players[note.lane]}'s ${word(note)}`;
    return `${whose} against ${players[against.lane]}'s ${word(against)}`;
  });
  return `${sentence(listed([...new Set(pairs)]))}: held that long, it rubs.`;
}
