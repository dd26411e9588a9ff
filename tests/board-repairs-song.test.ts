/** Reading what is sung and proposed: the repairs B20 to B24 of SPEC.md. */
import { type Board, barAims } from "@halflap/board/board";
import { fillDocuments } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";
import { type BoardDocuments, emptyDocuments } from "@halflap/board/documents";
import { barId } from "@halflap/board/ids";
import { chartLayout } from "@halflap/board/layout";
import { makeReader } from "@halflap/board/read";
import { memberId, setMember } from "@halflap/board/talk";
import { describe, expect, test } from "vitest";
import { anything } from "./support/anything.ts";

type Chart = ReturnType<typeof chartLayout>;

function demo(): BoardDocuments {
  const docs = emptyDocuments();
  fillDocuments(docs, demoSolution());
  return docs;
}

function sung(change: (chart: Chart) => void): Board {
  const docs = demo();
  change(chartLayout(docs.board));
  return makeReader(docs)();
}

const phrase = { bar: "tag-1", start: 0, length: 96, melody: [] };
const edit = { kind: "lay-out", bar: "tag-1", rest: true };
const proposal = { lane: "upper", words: "rest here", bars: ["tag-1"], edits: [edit] };

/** The melody that is left of a phrase of 96 ticks. */
function melodyOf(melody: readonly unknown[]): readonly string[] | undefined {
  const board = sung(({ phrases }) => phrases.set("p", { ...phrase, melody }));
  return board.phrases
    .find(({ id }) => id === "p")
    ?.melody.map(({ start, pitch }) => `${start} ${pitch}`);
}

describe("B20 to B23", () => {
  test("B20 a voice has a name, and a range only if it is one", () => {
    const { voices } = sung(({ voices }) => {
      voices.set("a", { lane: "upper" });
      voices.set("b", { name: "Odd", low: 60, high: 48, type: "countertenor", lane: "middle" });
      voices.set("c", { name: "Ilse", low: 48, high: 60, type: "alto", lane: "upper" });
      voices.set("d", "Rune");
    });
    const short = voices.filter(({ id }) => id.length === 1);
    const unsaid = { lane: undefined, type: undefined, range: undefined };
    expect(short).toEqual([
      { id: "b", name: "Odd", ...unsaid },
      { id: "c", name: "Ilse", lane: "upper", type: "alto", range: { low: 48, high: 60 } },
    ]);
  });

  test("B20 a round that an unknown voice sings is sung by nobody", () => {
    const { form } = sung(({ voices, singers, form }) => {
      voices.set("c", { name: "Ilse" });
      form.insert(0, [{ id: "first", section: "tag", times: 3 }]);
      singers.set("first", ["gone", "c", null, "c"]);
      singers.set("form-1", "c");
    });
    expect(form[0]?.singers).toEqual([undefined, "c"]);
    expect(form[1]?.singers).toEqual([]);
  });

  test("B21 leaves out a phrase without bar or length, and a gap owner that can't be read", () => {
    const board = sung(({ phrases, gapOwners }) => {
      phrases.set("a", { ...phrase, bar: "no id!" });
      phrases.set("b", { ...phrase, length: 0 });
      phrases.set("c", { ...phrase, melody: "la" });
      gapOwners.set("a", { bar: "tag-1", at: 0, owner: "drummer" });
      gapOwners.set("b", { bar: "tag-1", at: -1, owner: "open" });
      gapOwners.set("c", { bar: "tag-1", at: 0, owner: "open" });
    });
    const short = (things: readonly { readonly id: string }[]) =>
      things.map(({ id }) => id).filter((id) => id.length === 1);
    expect(short(board.phrases)).toEqual(["c"]);
    expect(short(board.gapOwners)).toEqual(["c"]);
  });

  test("B21 leaves out sung notes outside the phrase or while another sounds", () => {
    const sing = (start: number, length: number, pitch: unknown) => ({ start, length, pitch });
    const melody = [sing(48, 48, 65), sing(0, 48, 60), sing(24, 12, 61), sing(96, 12, 62)];
    expect(melodyOf([...melody, sing(48, 49, 62), sing(0, 24, 128), 3])).toEqual(["0 60", "48 65"]);
  });

  test("B22 rounds are read ascending and once; without any the bar is played in all", () => {
    const board = sung(({ barRounds }) => {
      barRounds.set("tag-1", [3, 1, 3, 0, 33, 1.5, "2"]);
      barRounds.set("tag-2", []);
      barRounds.set("tag-3", "1");
    });
    const tag = board.sections.find(({ id }) => id === "tag");
    expect(tag?.bars.map(({ rounds }) => rounds)).toEqual([
      [1, 3],
      undefined,
      undefined,
      undefined,
    ]);
  });

  test("B22 leaves out unknown aims", () => {
    const { aims } = sung(({ aims }) => {
      aims.set("tag-1", ["dance", "stop", "unison", "stop"]);
      aims.set("tag-2", ["dance"]);
      aims.set("tag-3", "stop");
    });
    const wanted = barAims.filter((aim) => aim === "stop" || aim === "unison");
    expect(aims.get(barId("tag-1"))).toEqual(wanted);
    expect(aims.has(barId("tag-2"))).toBe(false);
    expect(aims.has(barId("tag-3"))).toBe(false);
  });

  test("B23 a limit of one's own has a name and a finite number; in the order of the names", () => {
    const { limits } = sung(({ limits }) => {
      for (const [i, value] of anything.entries()) limits.set(`some${i}`, value);
      limits.set("b", 2);
      limits.set("a", 0.5);
      limits.set("no name!", 3);
    });
    const numbers = anything.filter((value) => Number.isFinite(value));
    expect(limits.size).toBe(numbers.length + 2);
    expect([...limits].slice(0, 2)).toEqual([
      ["a", 0.5],
      ["b", 2],
    ]);
  });
});

describe("B24", () => {
  test("B24 leaves a proposal out as a whole where a part of it can't be read", () => {
    const { proposals } = sung((chart) => {
      chart.proposals.set("a", { ...proposal, lane: "middle" });
      chart.proposals.set("b", { ...proposal, bars: ["no id!"] });
      chart.proposals.set("c", { ...proposal, edits: [edit, { ...edit, kind: "dance" }] });
      chart.proposals.set("d", { ...proposal, edits: [edit, { ...edit, rest: 1 }] });
      chart.proposals.set("e", { ...proposal, edits: [] });
      chart.proposals.set("f", proposal);
    });
    expect(proposals).toEqual([{ id: "f", from: undefined, ...proposal }]);
  });

  test("B24 a part with its capo and locks is read, one off the neck or of no slot is not", () => {
    const grip = { kind: "grip", slot: "tag-1-1", grip: "x-x-3-2-4-x" };
    const part = [grip, { kind: "capo", capo: 3 }, { kind: "lock", slot: "tag-1-1", on: true }];
    const { proposals } = sung((chart) => {
      chart.proposals.set("a", { ...proposal, edits: part });
      chart.proposals.set("b", { ...proposal, edits: [{ kind: "capo", capo: 13 }] });
      chart.proposals.set("c", { ...proposal, edits: [{ kind: "capo" }] });
      chart.proposals.set("d", {
        ...proposal,
        edits: [{ kind: "lock", slot: "no id!", on: true }],
      });
      chart.proposals.set("e", { ...proposal, edits: [{ kind: "lock", slot: "tag-1-1" }] });
    });
    expect(proposals.map(({ id, edits }) => ({ id, edits }))).toEqual([{ id: "a", edits: part }]);
  });

  test("B24 a proposal carries a grip for each of 1,024 slots and no more", () => {
    const edits = Array.from({ length: 1025 }, (_, i) => ({ kind: "grip", slot: `s${i}` }));
    const { proposals } = sung((chart) => {
      chart.proposals.set("a", { ...proposal, edits: edits.slice(1) });
      chart.proposals.set("b", { ...proposal, edits });
    });
    expect(proposals.map(({ id }) => id)).toEqual(["a"]);
  });

  test("B24 a proposal comes from a member or from nobody", () => {
    const docs = demo();
    const { proposals } = chartLayout(docs.board);
    const read = makeReader(docs);
    proposals.set("a", { ...proposal, from: "m1" });
    expect(read().proposals[0]?.from).toBeUndefined();
    setMember(docs.talk, { id: memberId("m1"), name: "Rune", role: "player" });
    expect(read().proposals[0]?.from).toBe("m1");
  });
});
