/** Ideas come when they are asked for, again after a change, and never for another place. */
import type { Board, Lane, Slot } from "@halflap/board/board";
import { fillDocuments } from "@halflap/board/copy";
import { demoDraft } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { sectionId } from "@halflap/board/ids";
import { makeReader } from "@halflap/board/read";
import type { StrumIdea } from "@halflap/fitter/interlock";
import { createRoot, createSignal } from "solid-js";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { makeLiveBoard } from "../session/follow.ts";
import { type Asked, createIdeas, pauseMs } from "./create-ideas.ts";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

const documents = emptyDocuments();
fillDocuments(documents, demoDraft());
const demo = makeReader(documents)();
const verse = { lane: "upper", section: sectionId("verse") } as const;
const chorus = { lane: "upper", section: sectionId("chorus") } as const;

/** A question that is asked by hand; each answer names the tempo and the section it is for. */
function asked(isBroken = false) {
  const live = makeLiveBoard(demo);
  const [place, setPlace] = createSignal<Asked>();
  let questions = 0;
  const made = createRoot((dispose) => ({
    dispose,
    state: createIdeas(live.board, place, (board, _lane, section) => {
      questions += 1;
      if (isBroken) return Promise.reject(new Error("no network"));
      return Promise.resolve([named(board, section)]);
    }),
  }));
  return { ...made, setPlace, live, questions: () => questions };
}

function named({ tempo }: Board, section: string): StrumIdea {
  return { words: `${section} at ${tempo}` } as StrumIdea;
}

const some = (words: string) => ({ kind: "some", ideas: [{ words }] });

test("nobody is asked before somebody asks", async () => {
  const { state, setPlace, questions, dispose } = asked();
  await vi.advanceTimersByTimeAsync(pauseMs);
  expect([state().kind, questions()]).toEqual(["quiet", 0]);
  setPlace(verse);
  expect(state()).toEqual({ kind: "working" });
  await vi.advanceTimersByTimeAsync(0);
  expect(state()).toEqual(some(`verse at ${demo.tempo}`));
  dispose();
});

test("a change of the board asks again, what is shown stays until the answer", async () => {
  const { state, setPlace, live, dispose } = asked();
  setPlace(verse);
  await vi.advanceTimersByTimeAsync(0);
  live.follow({ ...demo, tempo: 91 });
  expect(state()).toEqual(some(`verse at ${demo.tempo}`));
  await vi.advanceTimersByTimeAsync(pauseMs);
  expect(state()).toEqual(some("verse at 91"));
  dispose();
});

const [section, ...sections] = demo.sections;
const [bar, ...bars] = section?.bars ?? [];
const [slot, ...slots] = bar?.slots ?? [];
const [entry, ...form] = demo.form;
if (!section || !bar || !slot || !entry) throw new Error("the demo has a chart and a form");
const { upper, lower } = demo.lanes;
const withUpper = (change: Partial<Lane>): Partial<Board> => ({
  lanes: { lower, upper: { ...upper, ...change } },
});
const inSlot = (change: Partial<Slot>): Partial<Board> => {
  const changed = { ...bar, slots: [{ ...slot, ...change }, ...slots] };
  return { sections: [{ ...section, bars: [changed, ...bars] }, ...sections] };
};

/** How often it is asked when a board becomes another. */
async function questionsAfter(change: Partial<Board>): Promise<number> {
  const { setPlace, live, questions, dispose } = asked();
  setPlace(verse);
  await vi.advanceTimersByTimeAsync(0);
  live.follow({ ...demo, ...change });
  await vi.advanceTimersByTimeAsync(pauseMs);
  dispose();
  return questions();
}

test.each<[string, Partial<Board>]>([
  ["a chord that is another in its slot", inSlot({ text: "Dbmaj7" })],
  ["how often a section is played", { form: [{ ...entry, times: entry.times + 1 }, ...form] }],
  ["whether somebody plays bass", { hasBass: !demo.hasBass }],
  ["palm mutes", withUpper({ palmMutes: new Set([bar.id]) })],
  ["what rings on", withUpper({ letRings: new Set([bar.id]) })],
  ["how loud it is", withUpper({ dynamics: new Map([[bar.id, "f"]]) })],
])("asks again: %s", async (_, change) => {
  expect(await questionsAfter(change)).toBe(2);
});

test("what can't change an answer does not ask again", async () => {
  expect(await questionsAfter({ title: "Another", proposals: [], takes: [] })).toBe(1);
});

test("another place takes away what was shown, and nothing asked takes away all", async () => {
  const { state, setPlace, dispose } = asked();
  setPlace(verse);
  await vi.advanceTimersByTimeAsync(0);
  setPlace(chorus);
  expect(state()).toEqual({ kind: "working" });
  await vi.advanceTimersByTimeAsync(0);
  expect(state()).toEqual(some(`chorus at ${demo.tempo}`));
  setPlace(undefined);
  expect(state()).toEqual({ kind: "quiet" });
  dispose();
});

test("what can't be worked out is said, and can be asked again", async () => {
  const { state, setPlace, questions, dispose } = asked(true);
  setPlace(verse);
  await vi.advanceTimersByTimeAsync(0);
  expect(state()).toEqual({ kind: "failed" });
  setPlace(undefined);
  setPlace(verse);
  await vi.advanceTimersByTimeAsync(0);
  expect([state().kind, questions()]).toEqual(["failed", 2]);
  dispose();
});
