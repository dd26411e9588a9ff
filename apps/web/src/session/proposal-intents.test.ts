/**
 * What was taken and is not answered yet, over a reload of the page.
 *
 * @vitest-environment jsdom
 */
import { fillDocuments } from "@halflap/board/copy";
import { demoDraft } from "@halflap/board/demo";
import { type BoardDocuments, emptyDocuments } from "@halflap/board/documents";
import { setChord } from "@halflap/board/edits/chart";
import { makeReader } from "@halflap/board/read";
import { memberId, setMember } from "@halflap/board/talk";
import { check } from "@halflap/checker/check";
import type { Finding } from "@halflap/checker/finding";
import { assert } from "@halflap/theory/units";
import type { BoardId } from "@halflap/wire/api";
import { beforeEach, expect, test } from "vitest";
import { standingOf } from "../proposals/standing.ts";
import { makeLaneIntents } from "./lane-intents.ts";
import { makeProposalIntents } from "./proposal-intents.ts";

const [mara, jo] = [memberId("mara"), memberId("jo")];

function open(documents: BoardDocuments, me: typeof mara, id = "b1" as BoardId) {
  const board = makeReader(documents);
  const intents = makeProposalIntents({
    id,
    board,
    document: () => documents.board,
    me: () => me,
    ownLane: () => "lower",
    lane: () => undefined,
    mayOffer: () => true,
  });
  return { board, ...intents };
}

function boardWithOffer() {
  const documents = emptyDocuments();
  fillDocuments(documents, demoDraft());
  setMember(documents.talk, { id: mara, name: "Mara", role: "player" });
  setMember(documents.talk, { id: jo, name: "Jo", role: "player" });
  const { board, offer } = open(documents, jo);
  const bar = board().sections[0]?.bars[0]?.id;
  assert(bar !== undefined, "the demo has a first bar");
  offer("lower", "Rest here.", [bar], [{ kind: "lay-out", bar, rest: true }]);
  const [offered] = board().proposals;
  assert(offered !== undefined, "just offered");
  return { documents, offered };
}

beforeEach(() => localStorage.clear());

test("what was taken before a reload is offered again when it is refused after it", () => {
  const { documents, offered } = boardWithOffer();
  open(documents, mara).take(offered.id);
  const again = open(documents, mara);
  expect(again.board().proposals).toEqual([]);
  again.giveBack("upper");
  again.settle("upper");
  expect(again.board().proposals).toEqual([]);
  again.giveBack("lower");
  expect(again.board().proposals).toEqual([offered]);
});

test("what the server has taken stays taken over a reload", () => {
  const { documents, offered } = boardWithOffer();
  const first = open(documents, mara);
  first.take(offered.id);
  first.settle("lower");
  const again = open(documents, mara);
  again.giveBack("lower");
  expect(again.board().proposals).toEqual([]);
});

test("another board, and what this browser holds and nobody can read, bring nothing back", () => {
  const { documents, offered } = boardWithOffer();
  open(documents, mara).take(offered.id);
  open(documents, mara, "b2" as BoardId).giveBack("lower");
  expect(makeReader(documents)().proposals).toEqual([]);
  for (const broken of ['{"p1":{"lane":"lower","edits":[{"kind":"?"}]}}', "[1]", "null", "{"]) {
    localStorage.setItem("halflap:taken:b1", broken);
    open(documents, mara).giveBack("lower");
    expect(makeReader(documents)().proposals).toEqual([]);
  }
});

test("a grip that is taken stays chosen for the chord that it was offered for", () => {
  const documents = emptyDocuments();
  fillDocuments(documents, demoDraft());
  const from = open(documents, jo);
  const [bar] = from.board().sections[0]?.bars ?? [];
  const [slot] = bar?.slots ?? [];
  assert(bar !== undefined && slot !== undefined, "the demo has a first chord");
  from.offer("lower", "Try it.", [bar.id], [{ kind: "grip", slot: slot.id, grip: "x-x-3-2-4-x" }]);
  const [offered] = from.board().proposals;
  assert(offered !== undefined, "just offered");
  expect(standingOf(from.board(), offered)).toBe("open");
  setChord(documents.board, { slot: slot.id, chord: "Ebm7" });
  expect(standingOf(from.board(), offered)).toBe("other-chord");
  const lane = makeLaneIntents(documents["lane-lower"], from.board);
  makeProposalIntents({
    ...{ id: "b1" as BoardId, board: from.board, document: () => documents.board },
    ...{ me: () => mara, ownLane: () => "lower", lane: () => lane, mayOffer: () => true },
  }).take(offered.id);
  expect(from.board().lanes.lower.chosenFor.get(slot.id)).toBe(slot.text);
  const isStale = ({ rule, lanes }: Finding) => rule === "R36" && lanes[0] === "lower";
  const said = check(from.board()).filter(isStale);
  expect(said).toMatchObject([{ slots: [slot.id] }]);
});
