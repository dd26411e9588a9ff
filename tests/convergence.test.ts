/**
 * Three peers edit one board at once, apart and together: all end with the same documents and the
 * same valid Board.
 */
import type { Board } from "@halflap/board/board";
import { copyOf, fillDocuments } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";
import {
  type BoardDocuments,
  documentNames,
  emptyDocuments,
  ownEdit,
} from "@halflap/board/documents";
import * as chart from "@halflap/board/edits/chart";
import * as formEdits from "@halflap/board/edits/form-change";
import * as lane from "@halflap/board/edits/lane";
import * as laneEdits from "@halflap/board/edits/lane-edits";
import * as proposals from "@halflap/board/edits/proposals";
import * as singing from "@halflap/board/edits/singing";
import { chartLayout } from "@halflap/board/layout";
import { makeReader } from "@halflap/board/read";
import { describe, expect, test } from "vitest";
import * as Y from "yjs";
import { kinds, randomEdit } from "./support/random-edits.ts";
import { type Chance, seeded } from "./support/seeded.ts";
import { faultsOf } from "./support/valid-board.ts";

const seeds = 200;
const rounds = 30;

type Peer = {
  readonly docs: BoardDocuments;
  readonly read: () => Board;
  readonly undo: () => void;
  readonly inbox: { readonly name: (typeof documentNames)[number]; readonly update: Uint8Array }[];
};

function makePeers(start: readonly Uint8Array[], chance: Chance): readonly Peer[] {
  const peers = [0, 1, 2].map((number): Peer => {
    const docs = emptyDocuments();
    documentNames.forEach((name, i) => {
      docs[name].clientID = 1 + chance.below(1000) * 3 + number;
      Y.applyUpdate(docs[name], start[i] ?? new Uint8Array(), "network");
    });
    const managers = documentNames.map(
      (name) => new Y.UndoManager(docs[name], { trackedOrigins: new Set([ownEdit]) }),
    );
    return { docs, read: makeReader(docs), undo: () => chance.pick(managers).undo(), inbox: [] };
  });
  for (const peer of peers) {
    for (const name of documentNames) {
      peer.docs[name].on("update", (update: Uint8Array, origin: unknown) => {
        if (origin === "network") return;
        for (const other of peers) if (other !== peer) other.inbox.push({ name, update });
      });
    }
  }
  return peers;
}

/** Hands over what has arrived, in any order, some of it twice. */
function deliver(peer: Peer, chance: Chance, most: number): void {
  for (let i = 0; i < most && peer.inbox.length > 0; i += 1) {
    const place = chance.below(peer.inbox.length);
    const [message] = chance.happens(0.1)
      ? peer.inbox.slice(place, place + 1)
      : peer.inbox.splice(place, 1);
    if (message !== undefined) Y.applyUpdate(peer.docs[message.name], message.update, "network");
  }
}

function run(seed: number) {
  const chance = seeded(seed);
  const origin = emptyDocuments();
  fillDocuments(origin, demoSolution());
  const start = documentNames.map((name) => Y.encodeStateAsUpdate(origin[name]));
  const peers = makePeers(start, chance);
  const withUndo = seed % 2 === 1;
  let count = 0;
  const made: string[] = [];
  const makeId = () => {
    count += 1;
    made.push(`n${count}`);
    return `n${count}`;
  };
  let cutOff = -1;
  for (let round = 0; round < rounds; round += 1) {
    if (chance.happens(0.2)) cutOff = chance.below(4) - 1;
    for (const [number, peer] of peers.entries()) {
      if (withUndo && chance.happens(0.15)) peer.undo();
      else randomEdit({ docs: peer.docs, board: peer.read(), chance, makeId });
      if (number !== cutOff) deliver(peer, chance, chance.below(6));
    }
  }
  for (const peer of peers) deliver(peer, chance, Number.POSITIVE_INFINITY);
  return { peers, made, withUndo };
}

/** All that a peer knows: what it has heard of, what was deleted, and what its documents hold. */
function stateOf(docs: BoardDocuments) {
  return documentNames.map((name) => {
    const doc = docs[name];
    expect(doc.store.pendingStructs).toBeNull();
    expect(doc.store.pendingDs).toBeNull();
    const roots = [...doc.share].map(([root, type]) => [root, type.toJSON()]);
    return {
      heard: [...Y.encodeSnapshot(Y.snapshot(doc))],
      holds: Object.fromEntries(roots),
    };
  });
}

describe("200 seeded schedules of three peers", () => {
  const blocks = Array.from({ length: 10 }, (_, i) => i * (seeds / 10));
  test.each(blocks)("seeds from %i converge on one valid Board", (first) => {
    for (let seed = first; seed < first + seeds / 10; seed += 1) {
      const { peers, made, withUndo } = run(seed);
      const [one, ...others] = peers;
      if (one === undefined) throw new Error("three peers");
      const board = makeReader(one.docs)();
      expect(faultsOf(board), `seed ${seed}`).toEqual([]);
      expect(one.read(), `seed ${seed}: read step by step`).toEqual(board);
      const copy = JSON.stringify(copyOf(one.docs));
      for (const other of others) {
        expect(stateOf(other.docs), `seed ${seed}`).toEqual(stateOf(one.docs));
        expect(other.read(), `seed ${seed}`).toEqual(board);
        expect(JSON.stringify(copyOf(other.docs)), `seed ${seed}`).toBe(copy);
      }
      if (withUndo) continue;
      const stored = new Set(made.filter((id) => chartLayout(one.docs.board).chords.has(id)));
      const lost = [...stored].filter((id) => !copy.includes(`"${id}"`));
      expect(lost, `seed ${seed}: slots neither standing nor set aside`).toEqual([]);
      for (const { id } of demoSolution().sections.flatMap(({ bars }) =>
        bars.flatMap(({ slots }) => slots),
      )) {
        expect(copy.includes(`"${id}"`), `seed ${seed}: slot ${id}`).toBe(true);
      }
    }
  });
});

describe("the checks can fail", () => {
  test("a reading that follows the order in which a peer heard of things is caught", () => {
    const heard = (docs: BoardDocuments) => [...chartLayout(docs.board).chords.keys()].join();
    const differing = Array.from({ length: 20 }, (_, seed) => run(seed).peers).filter(
      (peers) => new Set(peers.map(({ docs }) => heard(docs))).size > 1,
    );
    expect(differing.length).toBeGreaterThan(0);
  });

  test("an update that never arrives is caught", () => {
    const { peers } = run(2);
    const [one, two] = peers;
    if (one === undefined || two === undefined) throw new Error("three peers");
    chart.setTitle(one.docs.board, "Only here");
    expect(stateOf(two.docs)).not.toEqual(stateOf(one.docs));
    expect(two.read()).not.toEqual(one.read());
  });

  test("an invalid Board is caught", () => {
    const docs = emptyDocuments();
    fillDocuments(docs, demoSolution());
    const board = makeReader(docs)();
    expect(faultsOf(board)).toEqual([]);
    const [first] = board.sections;
    if (first === undefined) throw new Error("the demo has sections");
    const short = first.bars.map((bar) => ({ ...bar, slots: bar.slots.slice(1) }));
    expect(faultsOf({ ...board, sections: [first, first] })).not.toEqual([]);
    expect(faultsOf({ ...board, sections: [{ ...first, bars: short }] })).not.toEqual([]);
    expect(faultsOf({ ...board, tempo: Number.NaN })).not.toEqual([]);
  });

  test("every edit command takes part", () => {
    const modules = [chart, formEdits, lane, laneEdits, singing, proposals];
    const commands = modules.flatMap((module) => Object.keys(module));
    expect(commands.filter((name) => !Object.hasOwn(kinds, name))).toEqual([]);
  });
});
