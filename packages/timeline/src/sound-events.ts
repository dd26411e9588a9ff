/** What is heard: every note of both lanes through the whole form, from its attack to its end. */
import { type LaneId, laneIds, type SlotId } from "@halflap/board/board";
import type { FillId } from "@halflap/board/ids";
import type { Dynamic, FillWay } from "@halflap/board/playing";
import type { GripNote } from "@halflap/theory/grip";
import {
  isOpen,
  pitchAt,
  type Setup,
  type StringNumber,
  stringNumbers,
} from "@halflap/theory/tuning";
import { type MidiNote, type Ticks, ticks } from "@halflap/theory/units";
import { ringingStrings } from "./ringing-strings.ts";
import type { FigureAttack, LaneBar, StrokeAttack, Timeline } from "./timeline.ts";

/** How a note is made. A ghost is a muted stroke: its pitch is that of the string it brushes. */
export type Technique = FillWay | "palm-mute" | "ghost";

export type SoundEvent = {
  readonly lane: LaneId;
  readonly string: StringNumber;
  /** Where it is fretted; a bend starts here. */
  readonly pitch: MidiNote;
  /** How far a bend goes up, in semitones; 0 for all else. */
  readonly bend: number;
  /** As heard, from the start of the tune, count-in left out. The end may lie past its length. */
  readonly start: Ticks;
  readonly end: Ticks;
  /** Which way the hand goes; undefined for notes of a fill. */
  readonly stroke: "down" | "up" | undefined;
  /** How hard it is struck: above 0, at most 1. */
  readonly velocity: number;
  readonly technique: Technique;
  readonly slot: SlotId;
  /** The fill or line it belongs to. */
  readonly fill: FillId | undefined;
};

/** How hard a plain stroke is at each loudness, and what changes it: ours, for the ear to judge. */
const velocities: Readonly<Record<Dynamic, number>> = {
  pp: 0.25,
  p: 0.38,
  mp: 0.51,
  mf: 0.64,
  f: 0.77,
  ff: 0.9,
};
const unsaid: Dynamic = "mf";
const accented = 1.1;
const ghosted = 0.5;
const slurred = 0.8;

/** A muted stroke lasts a thirty-second note at most. */
const ghostLength = 6;
/** Nothing rings longer than this many bars of the length of its own. */
const barsMax = 2;

/** The sounding notes of both lanes by start, then upper lane first, then from string 6 to 1. */
export function soundEvents(
  timeline: Timeline,
  setups: Readonly<Record<LaneId, Setup>>,
): readonly SoundEvent[] {
  return laneIds
    .flatMap((lane) => eventsOf(timeline, lane, setups[lane]))
    .sort((a, b) => a.start - b.start);
}

/** What a note says about itself before it is known when it starts and ends. */
type Sound = Pick<SoundEvent, "stroke" | "velocity" | "technique" | "bend" | "slot" | "fill">;

/** How long a note sounds unless something stops it, and whether leaving the grip does. */
type Lasting = { readonly from: number; readonly until: number; readonly isHeldByGrip: boolean };

type Sounding = ReturnType<typeof soundingOf>;

/** A lane's strings and the notes they have made. */
function soundingOf(lane: LaneId, setup: Setup) {
  const events: { -readonly [Field in keyof SoundEvent]: SoundEvent[Field] }[] = [];
  const strings = ringingStrings((fret) => isOpen(setup, fret));
  const strike = (
    { string, fret, pitch }: GripNote,
    { stroke, velocity, technique, bend, slot, fill }: Sound,
    { from, until, isHeldByGrip }: Lasting,
  ): void => {
    const [start, end] = [ticks(from), ticks(until)];
    // Field by field: a spread for each note of a long tune takes as long as all the rest.
    const event = {
      lane,
      string,
      pitch,
      bend,
      start,
      end,
      stroke,
      velocity,
      technique,
      slot,
      fill,
    };
    events.push(event);
    strings.strike({ string, fret, event, isHeldByGrip });
  };
  return { events, strings, strike, setup };
}

function eventsOf(timeline: Timeline, lane: LaneId, setup: Setup): readonly SoundEvent[] {
  const sounding = soundingOf(lane, setup);
  for (const { passage, start } of timeline.passes) {
    const bars = passage.bars.map(({ lanes }) => lanes[lane]);
    for (const [index, bar] of passage.bars.entries()) {
      playBar(sounding, { bars, index, start: start + bar.start });
    }
  }
  return sounding.events.filter((event) => event.end > event.start);
}

/** A bar among those of its pass, and where it starts in the tune. */
type Place = { readonly bars: readonly LaneBar[]; readonly index: number; readonly start: number };

/** What happens in a bar in order of time; at one time the hand moves first, then it stops. */
function playBar(sounding: Sounding, place: Place): void {
  const { start } = place;
  const laneBar = place.bars[place.index];
  if (laneBar === undefined || laneBar.rests) return;
  const { slots } = laneBar.bar;
  const { attacks, changes, chokes, grips } = laneBar;
  let [slot, choke] = [0, 0];
  const before = (time: number) => {
    for (let at = changes[slot]; at !== undefined && at <= time; at = changes[slot]) {
      const next = slots[slot];
      stopUntil(at);
      if (next !== undefined) sounding.strings.hold(next.id, grips[slot]?.frets, start + at);
      slot += 1;
    }
    stopUntil(time);
  };
  const stopUntil = (time: number) => {
    for (let at = chokes[choke]; at !== undefined && at <= time; at = chokes[choke]) {
      sounding.strings.stopAll(start + at);
      choke += 1;
    }
  };
  for (const attack of attacks) {
    before(attack.sounds);
    if (attack.kind === "stroke") playStroke(sounding, laneBar, attack, start);
    else playNote(sounding, laneBar, attack, place);
  }
  before(laneBar.bar.length);
}

function playStroke(sounding: Sounding, laneBar: LaneBar, attack: StrokeAttack, start: number) {
  const { strings } = sounding;
  const from = start + attack.sounds;
  if (attack.stroke.weight === "ghost") {
    strings.stopAll(from);
    const short = { from, until: from + ghostLength, isHeldByGrip: false };
    const sound = soundOfStroke(laneBar, attack);
    for (const note of notesUnderHand(sounding)) sounding.strike(note, sound, short);
    return;
  }
  if (strings.heldSlot() !== attack.slot) {
    const frets = stringNumbers.map(
      (string) => attack.notes.find((note) => note.string === string)?.fret,
    );
    strings.hold(attack.slot, frets, from);
  }
  const sound = soundOfStroke(laneBar, attack);
  const until = from + barsMax * laneBar.bar.length;
  const lasting = { from, until, isHeldByGrip: !laneBar.letRing };
  for (const note of attack.notes) sounding.strike(note, sound, lasting);
}

/** A ghost stroke brushes the strings of the grip that the hand lies on. */
function notesUnderHand({ strings, setup }: Sounding): readonly GripNote[] {
  const frets = strings.heldFrets();
  return stringNumbers.flatMap((string, index): readonly GripNote[] => {
    const fret = frets?.[index];
    const pitch = fret === undefined ? undefined : pitchAt(setup, string, fret);
    return fret === undefined || pitch === undefined ? [] : [{ string, fret, pitch }];
  });
}

function playNote(sounding: Sounding, laneBar: LaneBar, attack: FigureAttack, place: Place) {
  const { note, notes, fill, slot } = attack;
  const isSlurred = note.way === "hammer-on" || note.way === "pull-off";
  const sound: Sound = {
    stroke: undefined,
    velocity: loudnessOf(laneBar) * (isSlurred ? slurred : 1),
    technique: note.way === "pluck" && laneBar.palmMute ? "palm-mute" : note.way,
    bend: note.bend,
    slot,
    fill: fill.id,
  };
  const from = place.start + attack.sounds;
  const until = note.letRing ? from + barsMax * laneBar.bar.length : endOfNote(place, attack);
  const lasting = { from, until, isHeldByGrip: false };
  for (const one of notes) sounding.strike(one, sound, lasting);
}

/** A note lasts its length; into a swung note that follows at once it lasts until that is heard. */
function endOfNote({ bars, index, start }: Place, { at, sounds, note, fill }: FigureAttack) {
  let [barStart, written] = [start, at + note.length];
  for (const { bar, attacks } of bars.slice(index)) {
    if (written < bar.length) {
      const next = attacks.find(
        (attack) => attack.kind === "note" && attack.fill === fill && attack.at === written,
      );
      if (next !== undefined) return barStart + next.sounds;
      break;
    }
    barStart += bar.length;
    written -= bar.length;
  }
  return start + sounds + note.length;
}

function soundOfStroke(laneBar: LaneBar, { stroke, strum, slot }: StrokeAttack): Sound {
  const isMuted = laneBar.palmMute || strum?.palmMute === true;
  const weight = { plain: 1, accent: accented, ghost: ghosted }[stroke.weight];
  return {
    stroke: stroke.way,
    velocity: loudnessOf(laneBar) * weight,
    technique: stroke.weight === "ghost" ? "ghost" : isMuted ? "palm-mute" : "pluck",
    bend: 0,
    slot,
    fill: undefined,
  };
}

function loudnessOf({ dynamic }: LaneBar): number {
  return velocities[dynamic ?? unsaid];
}
