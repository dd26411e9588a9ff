/** A take lies where it was played, also when the tune changes under it or the microphone goes. */
import type { TakeHead } from "@halflap/board/take";
import { ticks } from "@halflap/theory/units";
import { createRoot } from "solid-js";
import { afterEach, expect, test, vi } from "vitest";
import type { Desk } from "../../board/desk.ts";
import { recordWords } from "../../words/takes.ts";
import type { Companion } from "../companions.ts";
import type { Listening } from "../create-listening.ts";
import type { BarOfPlay } from "../order-of-play.ts";
import type { Plan } from "../play-clock.ts";
import { barAt, board, rate } from "../test-support/rehearsal.ts";
import { courseOf } from "../together/course.ts";
import { createRecording } from "./create-recording.ts";
import { openMicrophone } from "./microphone.ts";
import { type Recorder, startRecorder } from "./recorder.ts";

vi.mock("./microphone.ts");
vi.mock("./recorder.ts");

afterEach(() => void vi.clearAllMocks());

const bars = courseOf(board, undefined).bars.map((bar): BarOfPlay => {
  return { ...bar, strokes: { upper: [], lower: [] } };
});
const samplesPerTick = (rate * 60) / board.tempo / 48;
const barSeconds = (192 * samplesPerTick) / rate;
/** The first beat is given two seconds after the player's sample 0. */
const beat = 2;
const begun: Plan = {
  bars,
  stretch: { first: 0, last: 3, loops: false },
  anchor: { sample: beat * rate, tick: 0, samplesPerTick },
};
/** A plan that is taken up so many seconds after the first beat, as an edit makes it. */
const takenUp = (seconds: number, change: Partial<Plan> = {}, faster = 1): Plan => {
  const tick = (seconds * rate) / samplesPerTick;
  const anchor = { sample: (beat + seconds) * rate, tick, samplesPerTick: samplesPerTick / faster };
  return { ...begun, anchor, ...change };
};

/** A take that is being recorded: `play` says what is played at a time of the audio. */
async function recording() {
  let companion: Companion = () => {};
  let isBroken = false;
  let time = 0;
  const stop = vi.fn(() => play(time, undefined));
  const play = (at: number, plan: Plan | undefined) => {
    time = at;
    const context = { currentTime: at, sampleRate: rate, outputLatency: 0 } as AudioContext;
    companion({ context, plan, origin: 0 });
  };
  const recorder: Recorder = {
    level: () => 0,
    hasClipped: () => false,
    isBroken: () => isBroken,
    mark: () => 0,
    stop: async () => {
      const sound = { duration: time } as AudioBuffer;
      return { blob: new Blob(), sound, hasClipped: false, fileSeconds: (at) => at };
    },
    cancel: () => {},
  };
  vi.mocked(openMicrophone).mockResolvedValue({ stream: {} as MediaStream, latency: 0 });
  vi.mocked(startRecorder).mockReturnValue(recorder);
  const listening = {
    ...{ prepare: async () => {}, audio: () => ({}), accompany: async () => {}, stop },
    state: () => ({ kind: "playing" }),
    follow(follows: Companion) {
      companion = follows;
      return () => {
        companion = () => {};
      };
    },
  };
  const desk = { session: { board } };
  const made = createRoot(() =>
    createRecording(desk as unknown as Desk, listening as unknown as Listening),
  );
  await made.start({ from: barAt(0), to: barAt(3) });
  return {
    ...{ play, stop },
    unplug: () => {
      isBroken = true;
    },
    said: () => recordWords(made.state()),
    async ended(): Promise<TakeHead | string> {
      await expect.poll(() => made.state().kind).not.toBe("finishing");
      const state = made.state();
      return state.kind === "review" ? state.draft.head : state.kind;
    },
  };
}

const playedBars = (head: TakeHead | string) =>
  typeof head === "string" ? head : head.bars.map(({ bar }) => bar);

test("edits that leave tempo and bars alone are no matter", async () => {
  const { play, ended, said } = await recording();
  play(0.5, begun);
  play(beat + 1, takenUp(1.1));
  // A bar in front of those that are recorded comes or goes.
  const later = bars.map((bar) => ({ ...bar, start: ticks(bar.start + 192) }));
  const shifted = [{ ...bars[8], start: 0 } as BarOfPlay, ...later];
  const anchor = takenUp(2.1).anchor;
  play(beat + 2, {
    bars: shifted,
    stretch: { first: 1, last: 4, loops: false },
    anchor: { ...anchor, tick: anchor.tick + 192 },
  });
  play(beat + 1.5 * barSeconds, undefined);
  const head = await ended();
  expect(playedBars(head)).toEqual([barAt(0), barAt(1)]);
  expect(head).toMatchObject({ offsetMs: beat * 1000, tempo: board.tempo });
  expect(said()).toBe("");
});

test("what changes before the first beat is what the take is played to", async () => {
  const { play, ended } = await recording();
  play(0.5, begun);
  const sample = 3 * rate;
  const slower = { sample, tick: 192, samplesPerTick: 2 * samplesPerTick };
  play(0.6, { bars, stretch: { first: 1, last: 3, loops: false }, anchor: slower });
  play(3 + 2.5 * barSeconds, undefined);
  const head = await ended();
  expect(playedBars(head)).toEqual([barAt(1), barAt(2)]);
  expect(head).toMatchObject({ offsetMs: 3000, tempo: board.tempo / 2 });
});

test.each([
  ["another tempo", takenUp(barSeconds, {}, 1.2)],
  ["a bar that is gone", takenUp(barSeconds, { bars: bars.slice(1) })],
  ["a bar of another length", takenUp(barSeconds, { bars: shortened() })],
])("%s ends the take there, keeps what was played, and is said", async (_, plan) => {
  const { play, stop, ended, said } = await recording();
  play(0.5, begun);
  play(beat + barSeconds - 0.05, plan);
  const head = await ended();
  expect(playedBars(head)).toEqual([barAt(0)]);
  expect(head).toMatchObject({ offsetMs: beat * 1000, tempo: board.tempo });
  expect(stop).toHaveBeenCalledOnce();
  expect(said()).toMatch(/tempo or the bars were changed/);
});

function shortened(): readonly BarOfPlay[] {
  return bars.map((bar, index) => (index === 0 ? { ...bar, length: ticks(96) } : bar));
}

test("a bar that goes before it is reached ends nothing, and is not among the take's", async () => {
  const { play, ended } = await recording();
  play(0.5, begun);
  const without = bars.filter((_, index) => index !== 1);
  play(beat + barSeconds / 2, takenUp(barSeconds / 2 + 0.07, { bars: without }));
  play(beat + 1.5 * barSeconds, undefined);
  expect(playedBars(await ended())).toEqual([barAt(0), barAt(2)]);
});

test("a microphone that goes away ends band and take; what came in before is kept", async () => {
  const { play, stop, unplug, ended, said } = await recording();
  play(0.5, begun);
  play(beat + 1, begun);
  unplug();
  play(beat + 1.1, begun);
  expect(playedBars(await ended())).toEqual([barAt(0)]);
  expect(stop).toHaveBeenCalledOnce();
  expect(said()).toMatch(/broke off/);
});

test("one that goes away before the first beat leaves nothing to keep, and says that", async () => {
  const { play, unplug, ended, said } = await recording();
  play(0.5, begun);
  unplug();
  play(0.6, begun);
  expect(await ended()).toBe("refused");
  expect(said()).toMatch(/^The recording did not work/);
});
