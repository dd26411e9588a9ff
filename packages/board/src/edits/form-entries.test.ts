/** What hangs on a form entry stays with it when the form is written anew. */
import fc from "fast-check";
import { beforeEach, describe, expect, test } from "vitest";
import * as Y from "yjs";
import type { Board } from "../board.ts";
import { fillDocuments } from "../copy.ts";
import { demoSolution } from "../demo.ts";
import { type BoardDocuments, emptyDocuments } from "../documents.ts";
import { formEntryId, sectionId, voiceId } from "../ids.ts";
import { chartLayout } from "../layout.ts";
import { makeOwnUndo } from "../own-undo.ts";
import { makeReader } from "../read.ts";
import { type Played, setForm } from "./form-change.ts";
import { applyLaneEdits } from "./lane-edits.ts";
import { addVoice, setSingers } from "./singing.ts";

const anna = voiceId("anna");
const [a, b, c, d] = ["a", "b", "c", "d"].map(formEntryId);
const [verse, tag] = [sectionId("verse"), sectionId("tag")];

let docs: BoardDocuments;
let read: () => Board;
let count: number;

beforeEach(() => {
  docs = emptyDocuments();
  const form = [
    { id: "a", section: "verse", times: 1 },
    { id: "b", section: "tag", times: 1 },
    { id: "c", section: "verse", times: 2 },
    { id: "d", section: "tag", times: 1 },
  ];
  fillDocuments(docs, { ...demoSolution(), form, singers: {} });
  addVoice(docs.board, { id: anna, name: "Anna", lane: undefined, type: "alto", range: undefined });
  setSingers(docs.board, { entry: formEntryId("c"), singers: [anna, anna] });
  applyLaneEdits(docs["lane-upper"], [{ kind: "rest-pass", entry: formEntryId("c"), rest: true }]);
  read = makeReader(docs);
  count = 0;
});

const makeId = () => {
  count += 1;
  return `n${count}`;
};
const written = (): Played[] =>
  read().form.map(({ id, section, times }) => ({ id, section, times }));
const ids = () => read().form.map(({ id }) => id);
const keep = (form: readonly Played[], doc = docs.board) => setForm(doc, { form, makeId });

describe("E3 an entry", () => {
  test("that is played more often keeps who sings it and who rests in it", () => {
    keep(written().map((each) => (each.id === c ? { ...each, times: 3 } : each)));
    expect(ids()).toEqual([a, b, c, d]);
    expect(read().form[2]).toMatchObject({ times: 3, singers: [anna, anna] });
    expect([...read().lanes.upper.restingPasses]).toEqual([c]);
  });

  test("that goes elsewhere keeps them too", () => {
    const [one, two, three, four] = written();
    if (!one || !two || !three || !four) throw new Error("four entries");
    keep([three, two, one, four]);
    expect(ids()).toEqual([c, b, a, d]);
    expect(read().form[0]).toMatchObject({ times: 2, singers: [anna, anna] });
  });

  test("is not taken for a new one that says the same and stands before it", () => {
    keep([{ section: verse, times: 1 }, ...written()]);
    expect(ids()).toEqual(["n1", a, b, c, d]);
  });

  test("keeps what a newer page stored in it", () => {
    const { form } = chartLayout(docs.board);
    form.delete(2);
    form.insert(2, [{ id: "c", section: "verse", times: 2, fade: true }]);
    keep(written().map((each) => (each.id === c ? { ...each, times: 3 } : each)));
    expect(form.get(2)).toEqual({ id: "c", section: "verse", times: 3, fade: true });
  });

  test("that both write again at once stands once, as one of them wrote it", () => {
    const theirs = new Y.Doc();
    Y.applyUpdate(theirs, Y.encodeStateAsUpdate(docs.board));
    const again = (times: number) =>
      written().map((each) => (each.id === c ? { ...each, times } : each));
    const [mine, other] = [again(3), again(4)];
    keep(mine);
    keep(other, theirs);
    Y.applyUpdate(docs.board, Y.encodeStateAsUpdate(theirs));
    expect(ids()).toEqual([a, b, c, d]);
    expect([3, 4]).toContain(read().form[2]?.times);
    keep(written().filter(({ id }) => id !== c));
    expect(ids()).toEqual([a, b, d]);
  });

  test("that another wrote since is as they left it when my writing is taken back", () => {
    const undo = makeOwnUndo();
    undo.follow(docs.board);
    const again = (times: number) =>
      written().map((each) => (each.id === c ? { ...each, times } : each));
    keep([{ section: tag, times: 1 }, ...again(3)]);
    const theirs = new Y.Doc();
    Y.applyUpdate(theirs, Y.encodeStateAsUpdate(docs.board));
    keep(again(4), theirs);
    Y.applyUpdate(docs.board, Y.encodeStateAsUpdate(theirs), "network");
    undo.undo();
    expect(ids()).toEqual([a, b, c, d]);
    expect(read().form[2]?.times).toBe(4);
  });
});

describe("E3 two first forms written at once", () => {
  const apart = () => {
    const { form } = chartLayout(docs.board);
    form.delete(0, form.length);
    const theirs = new Y.Doc();
    Y.applyUpdate(theirs, Y.encodeStateAsUpdate(docs.board));
    return theirs;
  };
  const meet = (theirs: Y.Doc) => {
    Y.applyUpdate(docs.board, Y.encodeStateAsUpdate(theirs));
    Y.applyUpdate(theirs, Y.encodeStateAsUpdate(docs.board));
  };
  const said = (board: Board) => board.form.map(({ section, times }) => `${section} ${times}`);

  test("are one form, not one behind the other", () => {
    const theirs = apart();
    const [v, w] = [
      { section: verse, times: 1 },
      { section: tag, times: 1 },
    ];
    keep([v, w, v]);
    keep([v, { ...w, times: 2 }, v], theirs);
    meet(theirs);
    expect(ids()).toEqual(["verse-1", "tag-1", "verse-2"]);
    expect(["tag 1", "tag 2"]).toContain(said(read())[1]);
  });

  test("hold each section as often as one of them does, in the order of one, on both sides", () => {
    const sections = ["intro", "verse", "tag"].map(sectionId);
    const entry = fc.record({
      section: fc.constantFrom(...sections),
      times: fc.integer({ min: 1, max: 3 }),
    });
    const form = fc.array(entry, { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(form, form, (mine, others) => {
        const theirs = apart();
        keep(mine);
        keep(others, theirs);
        meet(theirs);
        const merged = said(read());
        expect(said(makeReader({ ...docs, board: theirs })())).toEqual(merged);
        const begins = [mine, others].some((one) =>
          one.every(({ section, times }, i) => merged[i] === `${section} ${times}`),
        );
        expect(begins).toBe(true);
        for (const section of sections) {
          const often = (all: readonly Played[]) =>
            all.filter((each) => each.section === section).length;
          expect(often(read().form)).toBe(Math.max(often(mine), often(others)));
        }
      }),
      { numRuns: 60 },
    );
  });
});
