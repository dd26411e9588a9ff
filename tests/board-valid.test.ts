/** What tells valid Boards from others can fail: every check of it catches a wrong example. */
import type { Bar, Board, Lane } from "@halflap/board/board";
import { fillDocuments } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import {
  barId,
  fillId,
  formEntryId,
  gapOwnerId,
  phraseId,
  proposalId,
  slotId,
  strumId,
  voiceId,
} from "@halflap/board/ids";
import type { Fill, FillNote, Strum } from "@halflap/board/playing";
import type { Proposal } from "@halflap/board/proposal";
import { makeReader } from "@halflap/board/read";
import { memberId } from "@halflap/board/talk";
import { type LaneWishes, usualWishes } from "@halflap/board/wishes";
import { fret, midiNote, ticks } from "@halflap/theory/units";
import { expect, test } from "vitest";
import { faultsOf } from "./support/valid-board.ts";

const board = demo();
const bar = barId("verse-1");
const id = phraseId("x");
const voice = { id: voiceId("x"), name: "Odd", lane: undefined, type: undefined, range: undefined };
const phrase = { id, bar, start: ticks(0), length: ticks(96), melody: [] };
const gap = { id: gapOwnerId("x"), bar, at: ticks(0), owner: "open" } as const;
const sung = { start: ticks(48), length: ticks(48), pitch: midiNote(60) };
const offer: Proposal = {
  id: proposalId("x"),
  lane: "upper",
  from: undefined,
  words: "",
  bars: [bar],
  edits: [{ kind: "lay-out", bar, rest: true }],
};
const picked: FillNote = {
  start: ticks(0),
  length: ticks(48),
  string: 2,
  fret: fret(8),
  way: "pluck",
  bend: 0,
  letRing: false,
};
const fill: Fill = {
  id: fillId("x"),
  bar,
  start: ticks(0),
  length: ticks(96),
  kind: "fill",
  together: false,
  notes: [picked],
};
const pattern: Strum = {
  id: strumId("x"),
  name: "",
  step: ticks(24),
  feel: "board",
  palmMute: false,
  steps: [{ kind: "rest" }],
};
const none = strumId("none");
const { strumming } = board.lanes.upper;

function demo(): Board {
  const docs = emptyDocuments();
  fillDocuments(docs, demoSolution());
  return makeReader(docs)();
}

/** The demo with other wishes in its upper lane. */
function wishes(change: Partial<LaneWishes>): Board {
  return lane({ wishes: { ...usualWishes, ...change } });
}

/** The demo with its upper lane changed. */
function lane(change: Partial<Lane>): Board {
  return { ...board, lanes: { ...board.lanes, upper: { ...board.lanes.upper, ...change } } };
}

/** The demo with its first bar changed. */
function firstBar(change: Partial<Bar>): Board {
  const [first, ...others] = board.sections;
  const [one, ...bars] = first?.bars ?? [];
  if (first === undefined || one === undefined) throw new Error("the demo has bars");
  return { ...board, sections: [{ ...first, bars: [{ ...one, ...change }, ...bars] }, ...others] };
}

/** The demo with the first entry of its form sung by these. */
function singers(...singers: readonly (typeof voice.id)[]): Board {
  return { ...board, form: board.form.map((entry) => ({ ...entry, singers })) };
}

/** The demo with one fill in its upper lane. */
function fills(change: Partial<Fill>): Board {
  return lane({ fills: new Map([[fill.id, { ...fill, ...change }]]) });
}

/** The demo with something that waits for room in a bar. */
function waiting(kind: "fill" | "phrase", start: number, at = "verse-1"): Board {
  const place = { bar: barId(at), start: ticks(start) };
  const thing =
    kind === "fill"
      ? ({ ...place, kind, id: fill.id, lane: "upper" } as const)
      : { ...place, kind, id };
  return { ...board, setAside: { ...board.setAside, waiting: [thing] } };
}

/** The demo with one more pattern in its upper lane. */
function strums(change: Partial<Strum>): Board {
  const known = board.lanes.upper.strums;
  return lane({ strums: new Map([...known, [pattern.id, { ...pattern, ...change }]]) });
}

test("the demo, and what is added to it here, is valid", () => {
  const [voices, phrases, gapOwners] = [[voice], [phrase], [gap]];
  expect(faultsOf(board)).toEqual([]);
  expect(faultsOf({ ...board, form: [], sections: [], voices, phrases, gapOwners })).toEqual([]);
  expect(faultsOf({ ...board, proposals: [offer] })).toEqual([]);
  expect(faultsOf(fills({}))).toEqual([]);
  expect(faultsOf(waiting("fill", 192))).toEqual([]);
  expect(faultsOf(strums({}))).toEqual([]);
});

test.each<[string, Board]>([
  ["a tempo that is no number", { ...board, tempo: Number.NaN }],
  ["five bars counted in", { ...board, countIn: 5 }],
  ["an ending of two lines", { ...board, ending: "fade\nslowly" }],
  ["a limit that is no number", { ...board, limits: new Map([["mudNote", Number.NaN]]) }],
  ["a limit without a name", { ...board, limits: new Map([["", 1]]) }],
  ["sections twice", { ...board, sections: [...board.sections, ...board.sections] }],
  ["a bar that is not full", firstBar({ slots: [] })],
  ["rounds in disorder", firstBar({ rounds: [2, 1] })],
  ["a round twice", firstBar({ rounds: [1, 1] })],
  ["no rounds at all", firstBar({ rounds: [] })],
  ["round 33", firstBar({ rounds: [33] })],
  ["more singers than rounds", singers(...board.voices.concat(board.voices).map(({ id }) => id))],
  ["a singer who is not there", singers(voice.id)],
  ["a voice twice", { ...board, voices: [...board.voices, voice, voice] }],
  [
    "a range upside down",
    { ...board, voices: [{ ...voice, range: { low: midiNote(60), high: midiNote(48) } }] },
  ],
  ["a phrase beyond its bar", { ...board, phrases: [{ ...phrase, start: ticks(192) }] }],
  ["a phrase that waits in its bar", waiting("phrase", 191)],
  ["a fill that waits in no bar", waiting("fill", 192, "gone")],
  ["two notes sung at once", { ...board, phrases: [{ ...phrase, melody: [sung, sung] }] }],
  [
    "a note sung beyond its phrase",
    { ...board, phrases: [{ ...phrase, length: ticks(48), melody: [sung] }] },
  ],
  ["a gap beyond its bar", { ...board, gapOwners: [{ ...gap, at: ticks(192) }] }],
  ["an aim twice", { ...board, aims: new Map([[bar, ["stop", "stop"]]]) }],
  ["no aim", { ...board, aims: new Map([[bar, []]]) }],
  ["a proposal that changes nothing", { ...board, proposals: [{ ...offer, edits: [] }] }],
  ["a proposal about no bars", { ...board, proposals: [{ ...offer, bars: [] }] }],
  ["a proposal of a stranger", { ...board, proposals: [{ ...offer, from: memberId("m1") }] }],
  ["a pattern for the lane that is not there", lane({ strumming: { ...strumming, lane: none } })],
  [
    "a pattern for a bar that is not there",
    lane({ strumming: { ...strumming, bars: new Map([[bar, none]]) } }),
  ],
  ["a pattern without steps", strums({ steps: [] })],
  ["a step of no known length", strums({ step: ticks(25) })],
  ["the chord of no grip", lane({ chosenFor: new Map([[slotId("none"), "C7"]]) })],
  ["passes in disorder", lane({ restingPasses: new Set(["form-2", "form-1"].map(formEntryId)) })],
  ["bounds the wrong way round", wishes({ lowest: midiNote(61), highest: midiNote(60) })],
  ["fewer strings than none", wishes({ stringsMin: 0 })],
  ["more strings at least than at most", wishes({ stringsMin: 4, stringsMax: 3 })],
  ["frets the wrong way round", wishes({ lowestFret: fret(5), highestFret: fret(4) })],
  ["a set of strings upside down", wishes({ stringSets: [[2, 3]] })],
  [
    "a set of strings twice",
    wishes({
      stringSets: [
        [3, 2],
        [3, 2],
      ],
    }),
  ],
  ["a grip of five strings", wishes({ liked: [{ frets: Array(5).fill(fret(1)) }] })],
  ["a fill beyond its bar", fills({ start: ticks(192) })],
  ["a fill without length", fills({ length: ticks(0) })],
  ["two notes at once on a string", fills({ notes: [picked, picked] })],
  ["a note beyond its fill", fills({ length: ticks(24) })],
  ["a bend too far", fills({ notes: [{ ...picked, way: "bend", bend: 4.5 }] })],
  ["a pluck that bends", fills({ notes: [{ ...picked, bend: 1 }] })],
  ["a bend that does not", fills({ notes: [{ ...picked, way: "bend" }] })],
])("%s is caught", (_, wrong) => {
  expect(faultsOf(wrong)).not.toEqual([]);
});
