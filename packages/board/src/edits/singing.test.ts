/** Edits of who sings, what bars are meant to be, and what is proposed. */
import { midiNote, ticks } from "@halflap/theory/units";
import { beforeEach, expect, test } from "vitest";
import type { Board } from "../board.ts";
import { copyOf, decodeCopy, fillDocuments } from "../copy.ts";
import { demoDraft } from "../demo.ts";
import { type BoardDocuments, emptyDocuments } from "../documents.ts";
import { barId, formEntryId, gapOwnerId, phraseId, proposalId, slotId, voiceId } from "../ids.ts";
import { chartLayout } from "../layout.ts";
import type { Proposal } from "../proposal.ts";
import { makeReader } from "../read.ts";
import type { Voice } from "../singing.ts";
import { plainSong } from "../song-shape.ts";
import { memberId, setMember } from "../talk.ts";
import { setLimit } from "./chart.ts";
import { addProposal, removeProposal } from "./proposals.ts";
import * as singing from "./singing.ts";

let docs: BoardDocuments;
let read: () => Board;

beforeEach(() => {
  docs = emptyDocuments();
  fillDocuments(docs, { ...demoDraft(), ...plainSong() });
  read = makeReader(docs);
});

const bar = barId("verse-1");
const range = { low: midiNote(48), high: midiNote(65) };
const voice: Voice = { id: voiceId("v"), name: "Odd", lane: "lower", type: "tenor", range };

test("a voice is added, changed and taken away; one that is gone is not changed", () => {
  const changed = { ...voice, name: "Ilse", lane: undefined, range: undefined };
  singing.changeVoice(docs.board, voice);
  expect(read().voices).toEqual([]);
  singing.addVoice(docs.board, voice);
  expect(read().voices).toEqual([voice]);
  singing.changeVoice(docs.board, changed);
  expect(read().voices).toEqual([changed]);
  singing.removeVoice(docs.board, voice.id);
  expect(read().voices).toEqual([]);
});

test("a voice that is taken away sings no more, and again once it is back", () => {
  const entry = formEntryId("form-2");
  const singers = () => read().form.find(({ id }) => id === entry)?.singers;
  singing.addVoice(docs.board, voice);
  singing.setSingers(docs.board, { entry, singers: [voice.id] });
  expect(singers()).toEqual([voice.id]);
  singing.removeVoice(docs.board, voice.id);
  expect(singers()).toEqual([]);
  singing.addVoice(docs.board, voice);
  expect(singers()).toEqual([voice.id]);
  singing.setSingers(docs.board, { entry, singers: [undefined] });
  expect(copyOf(docs).singers).toEqual({});
});

test("phrases and owners of gaps are put, changed and taken away", () => {
  const id = phraseId("p");
  const melody = [{ start: ticks(0), length: ticks(48), pitch: midiNote(60) }];
  const phrase = { id, bar, start: ticks(0), length: ticks(96), melody };
  const gap = { id: gapOwnerId("g"), bar, at: ticks(96), owner: "both" } as const;
  singing.putPhrase(docs.board, phrase);
  singing.putPhrase(docs.board, { ...phrase, length: ticks(144) });
  singing.setGapOwner(docs.board, gap);
  expect(read().phrases).toEqual([{ ...phrase, length: 144 }]);
  expect(read().gapOwners).toEqual([gap]);
  singing.removePhrase(docs.board, id);
  singing.clearGapOwner(docs.board, gap.id);
  expect([read().phrases, read().gapOwners]).toEqual([[], []]);
});

test("E4 rounds belong to the bar that is borrowed, aims to the section that plays it", () => {
  const borrowed = barId("solo~verse-1");
  singing.setRounds(docs.board, { bar: borrowed, rounds: [2, 1, 2] });
  singing.setAims(docs.board, { bar: borrowed, aims: ["stop", "unison"] });
  const { barRounds, aims } = copyOf(docs);
  expect(barRounds).toEqual({ "verse-1": [1, 2] });
  expect(aims).toEqual({ "solo~verse-1": ["unison", "stop"] });
  singing.setRounds(docs.board, { bar, rounds: undefined });
  singing.setAims(docs.board, { bar: borrowed, aims: [] });
  expect(copyOf(docs)).toMatchObject({ barRounds: {}, aims: {} });
});

test("a limit is set and given back", () => {
  setLimit(docs.board, "mudNote", 45.5);
  expect([...read().limits]).toEqual([["mudNote", 45.5]]);
  setLimit(docs.board, "mudNote", undefined);
  expect(read().limits.size).toBe(0);
});

test("a proposal stands with all its changes until it is taken away", () => {
  const from = memberId("m1");
  setMember(docs.talk, { id: from, name: "Rune", role: "player" });
  const proposal: Proposal = {
    id: proposalId("x"),
    lane: "upper",
    from,
    words: "leave room for the voice",
    bars: [bar],
    edits: [
      { kind: "lay-out", bar, rest: true },
      { kind: "dynamic", bar, dynamic: undefined },
      { kind: "strum-at", place: { kind: "bar", bar }, strum: undefined },
    ],
  };
  addProposal(docs.board, proposal);
  expect(read().proposals).toEqual([proposal]);
  expect(read().lanes.upper.layOuts.has(bar)).toBe(false);
  removeProposal(docs.board, proposal.id);
  expect(read().proposals).toEqual([]);
});

test("B24 a proposal keeps the chords of its grips, as far as they can be read", () => {
  const slot = slotId("verse-1-1");
  const proposal: Proposal = {
    ...{ id: proposalId("x"), lane: "upper", from: undefined, words: "try it", bars: [bar] },
    edits: [{ kind: "grip", slot, grip: "x-x-3-2-4-x" }],
    chords: new Map([[slot, "G7"]]),
  };
  addProposal(docs.board, proposal);
  expect(read().proposals).toEqual([proposal]);
  const copy = decodeCopy(JSON.parse(JSON.stringify(copyOf(docs))));
  expect(copy).toMatchObject({
    ok: true,
    value: { proposals: { x: { chords: { [slot]: "G7" } } } },
  });
  const stored = chartLayout(docs.board).proposals;
  const change = (chords: unknown) => stored.set("x", { ...(stored.get("x") as object), chords });
  change({ [slot]: "G\n7", "no id": "A7", "verse-1-2": 5 });
  expect(read().proposals[0]?.chords).toEqual(new Map([[slot, "G 7"]]));
  for (const none of [undefined, null, "G7", 7]) {
    change(none);
    expect(read().proposals).toEqual([{ ...proposal, chords: undefined }]);
  }
});

test("what could not be stored is a bug and throws, and nothing is written", () => {
  const before = copyOf(docs);
  const empty = { id: proposalId("x"), lane: "upper", from: undefined, words: "" } as const;
  const phrase = { id: phraseId("p"), bar, start: ticks(0), length: ticks(0), melody: [] };
  expect(() => singing.addVoice(docs.board, { ...voice, name: "two\nlines" })).toThrow();
  expect(() => singing.putPhrase(docs.board, phrase)).toThrow();
  expect(() => singing.setRounds(docs.board, { bar, rounds: [33] })).toThrow();
  expect(() => addProposal(docs.board, { ...empty, bars: [bar], edits: [] })).toThrow();
  expect(() => setLimit(docs.board, "no name!", 1)).toThrow();
  expect(copyOf(docs)).toEqual(before);
});
