/** R09: with a bass player in the band, the cellar is taken. */
import { type LaneId, laneIds } from "@halflap/board/board";
import { pretty } from "@halflap/theory/display";
import { type MidiNote, pitchClass } from "@halflap/theory/units";
import { type Hit, notesOf } from "../hit.ts";
import { hasAim, type Segment } from "../segments.ts";
import { soundingChord, type Tune } from "../tune.ts";
import { listed, noteWord, sentence } from "../words.ts";

/**
 * A guitar low enough to make another bass note, or two parts in the cellar, are a fix; one part
 * with several low notes, or a low note in each, a look.
 */
export function bassZone(segment: Segment, tune: Tune): readonly Hit[] {
  if (!tune.hasBass || hasAim(segment, "unison")) return [];
  return wrongBass(segment, tune) ?? lowNotes(segment, tune);
}

/** The notes below the floor that are not the bass note of the chart, with their lanes. */
function wrongBass(segment: Segment, tune: Tune): readonly Hit[] | undefined {
  const chord = soundingChord(segment);
  if (chord === undefined) return undefined;
  const isWrong = (pitch: MidiNote) =>
    pitch < tune.limits.bassFloor && pitchClass(pitch) !== chord.bassClass;
  const lanes = laneIds.filter((lane) => segment[lane]?.some(isWrong));
  const pitches = lanes.flatMap((lane) => segment[lane]?.filter(isWrong) ?? []);
  if (lanes.length === 0) return undefined;
  const classes = [...new Set(pitches.map(pitchClass))];
  const names = listed(classes.map((value) => noteWord(value, chord, tune.key)));
  const whose = listed(lanes.map((lane) => `${tune.players[lane]}'s`));
  const [symbol, bass] = [pretty(chord.symbol), pretty(chord.bass)];
  const under = `another bass under ${symbol}: it wants ${bass}`;
  const put = classes.length > 1 || lanes.length > 1 ? "put" : "puts";
  return [
    {
      rule: "R09",
      severity: "fix",
      lanes,
      segments: [segment],
      notes: lanes.flatMap((lane) => notesOf(segment, lane, isWrong)),
      measured: pitches.length,
      threshold: 1,
      words: `${sentence(whose)} low ${names} ${put} ${under}.`,
    },
  ];
}

function lowNotes(segment: Segment, tune: Tune): readonly Hit[] {
  const isLow = (pitch: MidiNote) => pitch < tune.limits.bassZone;
  const count = (lane: LaneId) => segment[lane]?.filter(isLow).length ?? 0;
  const enough = tune.limits.bassNotes;
  const low = laneIds.filter((lane) => count(lane) > 0);
  const isBoth = low.length === laneIds.length;
  const lanes = isBoth ? low : low.filter((lane) => count(lane) >= enough);
  if (lanes.length === 0) return [];
  const isFix = isBoth && lanes.every((lane) => count(lane) >= enough);
  const [first] = lanes;
  return [
    {
      rule: "R09",
      severity: isFix ? "fix" : "look",
      lanes,
      segments: [segment],
      notes: lanes.flatMap((lane) => notesOf(segment, lane, isLow)),
      measured: lanes.reduce((sum, lane) => sum + count(lane), 0),
      threshold: isFix ? enough * lanes.length : isBoth ? lanes.length : enough,
      words:
        isBoth || first === undefined
          ? "You are both down in the cellar, where the bass plays: one of you could move up."
          : `${sentence(tune.players[first])} is down in the cellar, where the bass plays.`,
    },
  ];
}
