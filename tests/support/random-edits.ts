/** Every edit command of a board, with arguments drawn from what the board holds at the moment. */
import type { Bar, Board, SectionId } from "@halflap/board/board";
import { type BoardDocuments, laneDocument } from "@halflap/board/documents";
import * as chart from "@halflap/board/edits/chart";
import * as formEdits from "@halflap/board/edits/form-change";
import * as lane from "@halflap/board/edits/lane";
import * as silences from "@halflap/board/edits/silences";
import { barId, isHeld, sectionId, silenceId, slotId } from "@halflap/board/ids";
import { decodeGrip } from "@halflap/theory/grip";
import { parseKey } from "@halflap/theory/key";
import { parseChord } from "@halflap/theory/parse-chord";
import { tuningPresets } from "@halflap/theory/tuning";
import { fret } from "@halflap/theory/units";
import { songKinds } from "./random-song-edits.ts";
import type { Chance } from "./seeded.ts";

type Moment = {
  readonly docs: BoardDocuments;
  readonly board: Board;
  readonly chance: Chance;
  readonly makeId: () => string;
};
type Edit = (moment: Moment) => void;

const chords = ["F7", "Bb6", "Gm7", "C7", "D7", "Edim7", "Bb/F", "N.C.", "Am7b5"] as const;
const grips = ["x-x-3-2-4-x", "x-x-x-x-8-8", "1-3-1-2-1-1", "x-3-2-0-1-0"] as const;
const names = ["Intro", "Verse", "Chorus", "Bridge", "Tag", "Vamp"] as const;
const starts = [0, 24, 48, 96, 144, 192] as const;

/** One edit of a random kind; kinds for which the board has nothing to work on do nothing. */
export function randomEdit(moment: Moment): void {
  const edits = Object.values(kinds);
  moment.chance.pick(edits)(moment);
}

/**
 * Every command that `kinds` must call; the test that reads it fails when one is added and
 * forgotten.
 */
export const kinds: Readonly<Record<string, Edit>> = {
  ...songKinds,
  setTitle: ({ docs, chance }) => chart.setTitle(docs.board, `Tune ${chance.below(9)}`),
  setKey: ({ docs, chance }) => {
    const key = parseKey(chance.pick(["Bb", "G minor", "F#", "A"]));
    if (key.ok) chart.setKey(docs.board, key.value);
  },
  setTempo: ({ docs, chance }) => chart.setTempo(docs.board, 60 + chance.below(120)),
  setMeter: ({ docs, chance }) => {
    chart.setMeter(docs.board, { beats: chance.pick([3, 4, 4, 5]), unit: 4 });
  },
  setFeel: ({ docs, chance }) => chart.setFeel(docs.board, chance.pick(["straight", "swing"])),
  setHasBass: ({ docs, chance }) => chart.setHasBass(docs.board, chance.happens(0.5)),
  addSection: ({ docs, board, chance, makeId }) => {
    const after = chance.happens(0.3) ? undefined : someSection(board, chance);
    chart.addSection(docs.board, {
      id: sectionId(makeId()),
      name: `${chance.pick(names)} ${makeId()}`,
      after,
    });
  },
  renameSection: ({ docs, board, chance, makeId }) => {
    const section = someSection(board, chance);
    const name = `${chance.pick(names)} ${makeId()}`;
    if (section !== undefined) chart.renameSection(docs.board, section, name);
  },
  moveSection: ({ docs, board, chance }) => {
    const section = someSection(board, chance);
    const index = chance.below(board.sections.length + 1);
    if (section !== undefined) chart.moveSection(docs.board, { section, index });
  },
  removeSection: ({ docs, board, chance }) => {
    const section = someSection(board, chance);
    if (section !== undefined) chart.removeSection(docs.board, section);
  },
  borrowSection: ({ docs, board, chance }) => {
    const section = someSection(board, chance);
    const from = chance.happens(0.5) ? undefined : someSection(board, chance);
    if (section !== undefined) chart.borrowSection(docs.board, { section, from });
  },
  addBar: (moment) => addBar(moment),
  addAnotherBar: (moment) => addBar(moment),
  writeBar: ({ docs, board, chance, makeId }) => {
    const bar = someBar(board, chance);
    if (bar !== undefined) {
      chart.writeBar(docs.board, { bar, slots: someSlots(chance), makeId });
    }
  },
  setBarLength: ({ docs, board, chance }) => {
    const bar = someBar(board, chance)?.id;
    const length = chance.pick([undefined, 96, 144, 84]);
    if (bar !== undefined) chart.setBarLength(docs.board, { bar, length });
  },
  moveBar: ({ docs, board, chance }) => {
    const bar = someBar(board, chance)?.id;
    const section = someSection(board, chance);
    if (bar !== undefined && section !== undefined) {
      chart.moveBar(docs.board, { bar, section, index: chance.below(5) });
    }
  },
  removeBar: ({ docs, board, chance }) => {
    const bar = someBar(board, chance)?.id;
    if (bar !== undefined) chart.removeBar(docs.board, bar);
  },
  bringBackBar: ({ docs, board, chance }) => {
    const section = someSection(board, chance);
    const bars = board.setAside.bars;
    if (section !== undefined && bars.length > 0) {
      const bar = chance.pick(bars);
      chart.bringBackBar(docs.board, { bar, section, index: chance.below(5) });
    }
  },
  setChord: ({ docs, board, chance }) => {
    const slot = someSlot(board, chance);
    if (slot !== undefined) chart.setChord(docs.board, { slot, chord: chance.pick(chords) });
  },
  splitSlot: ({ docs, board, chance, makeId }) => {
    const slot = someSlot(board, chance);
    const id = slotId(makeId());
    const [at, chord] = [chance.pick(starts), chance.pick(chords)];
    if (slot !== undefined) chart.splitSlot(docs.board, { slot, id, at, chord });
  },
  removeSlot: ({ docs, board, chance }) => {
    const slot = someSlot(board, chance);
    if (slot !== undefined) chart.removeSlot(docs.board, slot);
  },
  bringBackSlot: ({ docs, board, chance }) => {
    const bar = someBar(board, chance)?.id;
    const slots = board.setAside.slots;
    if (bar !== undefined && slots.length > 0) {
      const slot = chance.pick(slots).id;
      chart.bringBackSlot(docs.board, { slot, bar, at: chance.pick(starts) });
    }
  },
  setForm: ({ docs, board, chance, makeId }) => {
    const again = chance.happens(0.5);
    const entries = again
      ? board.form.map(({ id, section }) => ({ id, section }))
      : board.sections.map(({ id }) => ({ section: id }));
    const form = entries
      .filter(() => chance.happens(0.8))
      .map((entry) => ({ ...entry, times: 1 + chance.below(2) }));
    if (again && chance.happens(0.3)) form.reverse();
    formEdits.setForm(docs.board, { form, makeId });
  },
  silence: ({ docs, board, chance, makeId }) => {
    const bars = board.sections.flatMap((section) => section.bars.map((bar) => bar.id));
    const id = silenceId(makeId());
    if (bars.length === 0) return;
    const from = chance.below(bars.length);
    const some = bars.slice(from, from + 1 + chance.below(4));
    silences.silence(docs.board, { id, rule: "R03", bars: some, reason: "we like it" });
  },
  unsilence: ({ docs, board, chance }) => {
    if (board.silences.length === 0) return;
    const { rule, bars } = chance.pick(board.silences);
    silences.unsilence(docs.board, { rule, bars: bars.slice(chance.below(bars.length)) });
  },
  placeGrip: (moment) => placeGrip(moment),
  placeAnotherGrip: (moment) => placeGrip(moment),
  clearGrip: ({ docs, board, chance }) => {
    const id = chance.pick(["upper", "lower"] as const);
    const slots = [...board.lanes[id].grips.keys()];
    if (slots.length > 0) lane.clearGrip(docs[laneDocument(id)], chance.pick(slots));
  },
  setTuning: (moment) => lane.setTuning(someLane(moment), moment.chance.pick(tuningPresets).tuning),
  setCapo: (moment) => lane.setCapo(someLane(moment), fret(moment.chance.below(6))),
  setFretsFrom: (moment) => {
    lane.setFretsFrom(someLane(moment), moment.chance.pick(["nut", "capo"]));
  },
  setLastFret: (moment) =>
    lane.setLastFret(someLane(moment), fret(moment.chance.pick([20, 22, 24]))),
  setScaleLength: (moment) => {
    lane.setScaleLength(someLane(moment), moment.chance.pick([628, 648, 650]));
  },
  layOut: (moment) => {
    const bar = someBar(moment.board, moment.chance)?.id;
    const rest = moment.chance.happens(0.7);
    if (bar !== undefined) lane.layOut(someLane(moment), { bar, rest });
  },
  setMark: (moment) => {
    const bar = someBar(moment.board, moment.chance)?.id;
    const text = moment.chance.pick(["", "let ring", "fill on 3"]);
    if (bar !== undefined) lane.setMark(someLane(moment), { bar, text });
  },
};

function addBar({ docs, board, chance, makeId }: Moment): void {
  const section = someSection(board, chance);
  if (section === undefined) return;
  const slots = someSlots(chance).map((slot) => ({ ...slot, id: slotId(makeId()) }));
  chart.addBar(docs.board, { id: barId(makeId()), section, index: chance.below(5), slots });
}

function placeGrip(moment: Moment): void {
  const bar = someBar(moment.board, moment.chance);
  const grip = decodeGrip(moment.chance.pick(grips));
  if (bar === undefined || grip === undefined) return;
  lane.placeGrip(someLane(moment), { slot: moment.chance.pick(bar.slots).id, grip });
}

function someLane({ docs, chance }: Moment) {
  return docs[chance.pick(["lane-upper", "lane-lower"] as const)];
}

function someSection(board: Board, chance: Chance): SectionId | undefined {
  return board.sections.length === 0 ? undefined : chance.pick(board.sections).id;
}

function someBar(board: Board, chance: Chance): Bar | undefined {
  const bars = board.sections.flatMap((section) => section.bars);
  return bars.length === 0 ? undefined : chance.pick(bars);
}

function someSlot(board: Board, chance: Chance) {
  const slots = someBar(board, chance)?.slots.filter(({ id }) => !isHeld(id)) ?? [];
  return slots.length === 0 ? undefined : chance.pick(slots).id;
}

function someSlots(chance: Chance) {
  return starts
    .filter((at) => (at === 0 ? chance.happens(0.9) : chance.happens(0.2)))
    .map((at) => ({ at, chord: chance.pick(chords.filter((chord) => parseChord(chord).ok)) }));
}
