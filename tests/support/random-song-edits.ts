/** Edits of who sings, what is meant and proposed, and any change to a lane, drawn from a board. */
import { type BarId, type Board, barAims, laneIds } from "@halflap/board/board";
import { type BoardDocuments, laneDocument } from "@halflap/board/documents";
import { chordOfBoard } from "@halflap/board/edited-board";
import * as chart from "@halflap/board/edits/chart";
import * as lanes from "@halflap/board/edits/lane-edits";
import * as proposals from "@halflap/board/edits/proposals";
import * as singing from "@halflap/board/edits/singing";
import { gapOwnerId, phraseId, proposalId, voiceId } from "@halflap/board/ids";
import type { Voice } from "@halflap/board/singing";
import { midiNote, ticks } from "@halflap/theory/units";
import { randomLaneEdit } from "./random-lane-edits.ts";
import type { Chance } from "./seeded.ts";

type Moment = {
  readonly docs: BoardDocuments;
  readonly board: Board;
  readonly chance: Chance;
  readonly makeId: () => string;
};
type Edit = (moment: Moment) => void;

/** Every command of singing, proposals and lane edits, and the settings they go with. */
export const songKinds: Readonly<Record<string, Edit>> = {
  setCountIn: ({ docs, chance }) => chart.setCountIn(docs.board, chance.below(5)),
  setEnding: ({ docs, chance }) => chart.setEnding(docs.board, chance.pick(["", "fade", "stop"])),
  setBlueNotes: ({ docs, chance }) => chart.setBlueNotes(docs.board, chance.happens(0.5)),
  setDistorted: ({ docs, chance }) => chart.setDistorted(docs.board, chance.happens(0.5)),
  setLimit: ({ docs, chance }) =>
    chart.setLimit(
      docs.board,
      chance.pick(["mudNote", "overlapLook"]),
      chance.pick([undefined, 2]),
    ),
  addVoice: ({ docs, chance, makeId }) => singing.addVoice(docs.board, voice(makeId(), chance)),
  changeVoice: ({ docs, board, chance }) => {
    for (const { id } of some(board.voices, chance)) {
      singing.changeVoice(docs.board, voice(id, chance));
    }
  },
  removeVoice: ({ docs, board, chance }) => {
    for (const { id } of some(board.voices, chance)) singing.removeVoice(docs.board, id);
  },
  putPhrase: ({ docs, board, chance, makeId }) => {
    const melody = [{ start: ticks(0), length: ticks(24), pitch: midiNote(60) }];
    const span = { start: ticks(chance.below(4) * 48), length: ticks(48) };
    for (const bar of some(barsOf(board), chance)) {
      singing.putPhrase(docs.board, { id: phraseId(makeId()), bar, ...span, melody });
    }
  },
  removePhrase: ({ docs, board, chance }) => {
    for (const { id } of some(board.phrases, chance)) singing.removePhrase(docs.board, id);
  },
  setGapOwner: ({ docs, board, chance, makeId }) => {
    const owner = chance.pick([...laneIds, "both", "open"] as const);
    for (const bar of some(barsOf(board), chance)) {
      singing.setGapOwner(docs.board, { id: gapOwnerId(makeId()), bar, at: ticks(96), owner });
    }
  },
  clearGapOwner: ({ docs, board, chance }) => {
    for (const { id } of some(board.gapOwners, chance)) singing.clearGapOwner(docs.board, id);
  },
  setSingers: ({ docs, board, chance }) => {
    for (const entry of some(board.form, chance)) {
      const singers = [undefined, ...some(board.voices, chance).map(({ id }) => id)];
      singing.setSingers(docs.board, { entry: entry.id, singers });
    }
  },
  setRounds: ({ docs, board, chance }) => {
    const rounds = chance.pick([undefined, [2], [1, 3]]);
    for (const bar of some(barsOf(board), chance)) singing.setRounds(docs.board, { bar, rounds });
  },
  setAims: ({ docs, board, chance }) => {
    const aims = barAims.filter(() => chance.happens(0.3));
    for (const bar of some(barsOf(board), chance)) singing.setAims(docs.board, { bar, aims });
  },
  addProposal: (moment) => {
    const { docs, board, chance, makeId } = moment;
    const lane = chance.pick(laneIds);
    const edits = [randomLaneEdit({ ...moment, lane }), randomLaneEdit({ ...moment, lane })];
    for (const bar of some(barsOf(board), chance)) {
      const about = { lane, from: undefined, words: "easier", bars: [bar] };
      proposals.addProposal(docs.board, { id: proposalId(makeId()), ...about, edits });
    }
  },
  removeProposal: ({ docs, board, chance }) => {
    for (const { id } of some(board.proposals, chance)) proposals.removeProposal(docs.board, id);
  },
  applyLaneEdits: (moment) => applyLaneEdits(moment),
  applyMoreLaneEdits: (moment) => applyLaneEdits(moment),
};

function applyLaneEdits(moment: Moment): void {
  const lane = moment.chance.pick(laneIds);
  const edits = [randomLaneEdit({ ...moment, lane }), randomLaneEdit({ ...moment, lane })];
  lanes.applyLaneEdits(moment.docs[laneDocument(lane)], edits, chordOfBoard(moment.board));
}

function voice(id: string, chance: Chance): Voice {
  const range = { low: midiNote(48), high: midiNote(65) };
  const lane = chance.pick([undefined, ...laneIds]);
  return { id: voiceId(id), name: "Somebody", lane, type: chance.pick(["alto", undefined]), range };
}

function barsOf(board: Board): readonly BarId[] {
  return board.sections.flatMap(({ bars }) => bars.map(({ id }) => id));
}

/** One of a list, where it holds any. */
function some<T>(list: readonly T[], chance: Chance): readonly T[] {
  return list.length === 0 ? [] : [chance.pick(list)];
}
