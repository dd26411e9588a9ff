/** What a practice file holds: its length to the sample, who is in it, and what is refused. */
import { fillDocuments } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { usualMix } from "@halflap/sound/mix";
import { tailSeconds } from "@halflap/sound/offline";
import { encodeWav } from "@halflap/sound/wav";
import { usualSwing } from "@halflap/timeline/swing";
import { expect, test } from "vitest";
import { inCompany } from "./players.ts";
import { type FileStep, type FileWish, renderPracticeFile } from "./practice-file.ts";
import { practiceFileName } from "./practice-file-name.ts";

const documents = emptyDocuments();
fillDocuments(documents, demoSolution());
const board = makeReader(documents)();
const intro = board.sections[0];
const bar = intro?.bars[0]?.id;
const loop = bar && ({ kind: "bars", from: bar, to: bar } as const);
const wish: FileWish = {
  format: "wav",
  board,
  loop,
  rounds: 2,
  tempoFactor: 1.5,
  countsIn: false,
  swing: usualSwing,
  mix: usualMix,
};

function made(wanted: FileWish): FileStep {
  const steps = [...renderPracticeFile(wanted)];
  const done = steps.flatMap((step) => (step.kind === "working" ? [step.done] : []));
  expect(done).toEqual([...done].sort((a, b) => a - b));
  const last = steps.at(-1);
  if (last === undefined) throw new Error("no step at all");
  return last;
}

/** Samples of the left side, after the 44 bytes of the header. */
function left(step: FileStep): Int16Array {
  if (step.kind !== "rendered") throw new Error(step.kind);
  return new Int16Array(encodeWav(step.recording, 1).buffer, 44).filter(
    (_, index) => index % 2 === 0,
  );
}

const loudest = (samples: Int16Array) => samples.reduce((max, x) => Math.max(max, Math.abs(x)), 0);

test("two rounds of a bar at one and a half times the tempo", () => {
  const samples = left(made(wish));
  const barSeconds = (4 * 60) / (board.tempo * 1.5);
  expect(samples.length).toBe(Math.round(2 * barSeconds * 44_100));
  expect(loudest(samples)).toBeGreaterThan(2000);
});

test("what goes round is neither counted in nor rings on behind its last bar line", () => {
  const samples = left(made({ ...wish, rounds: 1, countsIn: true }));
  expect(samples.length).toBe(Math.round((4 * 60 * 44_100) / (board.tempo * 1.5)));
});

test("the whole tune, which does not go round, is counted in and rings out", () => {
  const sections = board.sections.map((section) => ({
    ...section,
    bars: section.bars.slice(0, 1),
  }));
  const form = board.form.slice(0, 1).map((entry) => ({ ...entry, times: 1 }));
  const short = { ...board, sections, form, countIn: 1 };
  const samples = left(made({ ...wish, board: short, loop: undefined, countsIn: true, rounds: 1 }));
  const barSeconds = (4 * 60) / (board.tempo * 1.5);
  expect(samples.length).toBe(Math.ceil((2 * barSeconds + tailSeconds) * 44_100));
});

test("without both lanes and the band it holds dither alone", () => {
  const mix = inCompany(inCompany(usualMix, "only-me", "lower"), "only-me", "lower");
  const silent = { ...mix, lower: { level: 1, isMuted: true } };
  expect(loudest(left(made({ ...wish, mix: silent })))).toBeLessThanOrEqual(2);
  expect(loudest(left(made({ ...wish, mix })))).toBeGreaterThan(1000);
});

test("what is too long or not in the form is refused before any work", () => {
  const long = { ...wish, loop: undefined, rounds: 50, tempoFactor: 0.4 };
  expect([...renderPracticeFile(long)]).toEqual([{ kind: "refused", why: "too-long" }]);
  const empty = { ...wish, board: { ...board, form: [] }, loop: undefined };
  expect([...renderPracticeFile(empty)]).toEqual([{ kind: "refused", why: "nothing" }]);
});

test("a section that the form leaves out is written on its own", () => {
  const last = board.sections.at(-1);
  if (last === undefined) throw new Error("no section");
  const form = board.form.filter(({ section }) => section !== last.id);
  const section = { kind: "section", section: last.id } as const;
  const samples = left(made({ ...wish, board: { ...board, form }, loop: section, rounds: 1 }));
  const length = (last.bars.length * 4 * 60) / (board.tempo * 1.5);
  expect(samples.length).toBe(Math.round(length * 44_100));
  expect(loudest(samples)).toBeGreaterThan(2000);
});

test("for Opus it is rendered at the rate that Opus counts in", () => {
  const step = made({ ...wish, format: "opus" });
  if (step.kind !== "rendered") throw new Error(step.kind);
  const barSeconds = (4 * 60) / (board.tempo * 1.5);
  expect(step.recording.sampleRate).toBe(48_000);
  expect(step.recording.left.length).toBe(Math.ceil((2 * barSeconds + tailSeconds) * 48_000));
});

test("its name says what is in it", () => {
  expect(practiceFileName("Paper Ferry Home", ["Verse", "80 %", "without me"], "wav")).toBe(
    "paper-ferry-home-verse-80-without-me.wav",
  );
  expect(practiceFileName("", ["", ""], "opus")).toBe("board.opus");
});
