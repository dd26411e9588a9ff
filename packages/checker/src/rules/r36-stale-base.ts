/** R36: a grip was chosen for a chord that has changed since. */
import { type LaneId, laneIds, type Slot } from "@halflap/board/board";
import { remembered } from "@halflap/board/remembered";
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
export const staleBase: BoardRule = ({ passages, tune }, board) => {
  const hits: Hit[] = [];
  for (const lane of laneIds) {
    const { chosenFor } = board.lanes[lane];
    if (chosenFor.size === 0) continue;
    for (const segment of passages.flatMap((passage) => passage.segments)) {
      const before = chosenFor.get(segment.slot.id);
      if (before === undefined || before === segment.slot.text) continue;
      if (isOtherChord(segment.slot, before)) hits.push(...hitsOf(segment, lane, before, tune));
    }
  }
  return hits;
};

function hitsOf(segment: Segment, lane: LaneId, chosenFor: string, tune: Tune): readonly Hit[] {
  const grip = segment.grips[lane];
  if (grip === undefined || segment.rests[lane]) return [];
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

const verdicts = remembered((_: Slot) => new Map<string, boolean>());

/** Whether a slot's chord is another than a text meant; remembered, for all is asked each time. */
function isOtherChord(slot: Slot, text: string): boolean {
  const ofSlot = verdicts(slot);
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
