/** R36: a grip was chosen for a chord that has changed since. */
import { type Board, type LaneId, laneIds, type Slot } from "@halflap/board/board";
import type { Chord } from "@halflap/theory/chord";
import { pretty } from "@halflap/theory/display";
import { gripPitches } from "@halflap/theory/grip";
import { parseChord } from "@halflap/theory/parse-chord";
import { pitchClass } from "@halflap/theory/units";
import { foreignClasses } from "../foreign.ts";
import type { BoardRule, Hit } from "../hit.ts";
import type { Segment } from "../segments.ts";
import { soundingChord, type Tune } from "../tune.ts";
import { listed, noteWord, sentence } from "../words.ts";

/** One hit for every grip that is played under another chord than the one it was chosen for. */
export const staleBase: BoardRule = ({ passages, tune }, board) =>
  passages.flatMap(({ segments }) =>
    segments.flatMap((segment) => laneIds.flatMap((lane) => hitsOf(segment, lane, tune, board))),
  );

function hitsOf(segment: Segment, lane: LaneId, tune: Tune, board: Board): readonly Hit[] {
  const grip = segment.grips[lane];
  const chosenFor = board.lanes[lane].chosenFor.get(segment.slot.id);
  if (grip === undefined || chosenFor === undefined || segment.rests[lane]) return [];
  if (chosenFor === segment.slot.text || !isOtherChord(segment.slot, chosenFor)) return [];
  const chord = soundingChord(segment);
  const pitches = gripPitches(grip, tune.setups[lane]);
  const foreign = chord === undefined ? [] : foreignClasses(pitches, chord);
  const names = listed(foreign.map((each) => noteWord(each, chord, tune.key)));
  const player = sentence(tune.players[lane]);
  const changed = `${player}'s grip was chosen for ${pretty(chosenFor)}; the chart now says`;
  const isWrong = foreign.length > 0;
  return [
    {
      rule: "R36",
      severity: isWrong ? "stop" : "look",
      lanes: [lane],
      segments: [segment],
      notes: pitches
        .filter((pitch) => !isWrong || foreign.includes(pitchClass(pitch)))
        .map((pitch) => ({ lane, slot: segment.slot.id, pitch })),
      measured: foreign.length,
      threshold: isWrong ? 1 : 0,
      words: isWrong
        ? `${changed} ${pretty(segment.slot.text)}, without ${names}.`
        : `${changed} ${pretty(segment.slot.text)}: see whether it still does.`,
    },
  ];
}

const known = new WeakMap<Slot, Map<string, boolean>>();

/** Whether a slot's chord is another than a text meant; remembered, for all is asked each time. */
function isOtherChord(slot: Slot, text: string): boolean {
  let ofSlot = known.get(slot);
  if (ofSlot === undefined) {
    ofSlot = new Map();
    known.set(slot, ofSlot);
  }
  let isOther = ofSlot.get(text);
  if (isOther === undefined) {
    const read = parseChord(text);
    isOther = !read.ok || slot.chord === undefined || soundOf(read.value) !== soundOf(slot.chord);
    ofSlot.set(text, isOther);
  }
  return isOther;
}

/** The same for all spellings of a chord: its bass and its pitch classes. */
function soundOf(chord: Chord): string {
  if (chord.kind === "no-chord") return chord.kind;
  const classes = chord.tones.map((tone) => tone.pitchClass).sort((a, b) => a - b);
  return `${chord.bassClass}|${classes.join()}`;
}
