/** What a take is told to do later it does at once when everything stops. */
import { ticks } from "@halflap/theory/units";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { Plan } from "../play-clock.ts";
import { barAt, board, rate } from "../test-support/rehearsal.ts";
import { courseOf } from "../together/course.ts";
import { TakeDeck, type TakeVoice } from "./take-deck.ts";

const connected: unknown[] = [];
vi.mock("../way-out.ts", () => ({ wayOut: () => "out" }));

/** When each source ends, in seconds of the context; the last word counts. */
let ends: number[] = [];

class Gain {
  readonly gain = {
    setValueAtTime: () => {},
    linearRampToValueAtTime: () => {},
    setTargetAtTime: () => {},
    cancelAndHoldAtTime: () => {},
  };
  connect<T>(to: T): T {
    connected.push(to);
    return to;
  }
}

class Source {
  readonly #index = ends.push(Number.POSITIVE_INFINITY) - 1;
  connect<T>(to: T): T {
    return to;
  }
  start(when: number, _offset: number, duration: number): void {
    ends[this.#index] = when + duration;
  }
  stop(at: number): void {
    ends[this.#index] = Math.min(at, ends[this.#index] ?? at);
  }
}

beforeEach(() => {
  ends = [];
  vi.stubGlobal("GainNode", Gain);
  vi.stubGlobal("AudioBufferSourceNode", Source);
});
afterEach(() => void vi.unstubAllGlobals());

const bars = courseOf(board, undefined).bars.map((bar) => {
  return { ...bar, strokes: { upper: [], lower: [] } };
});
const samplesPerTick = (rate * 60) / board.tempo / 48;
const planFrom = (index: number, sample: number): Plan => {
  const stretch = { first: index, last: index, loops: true };
  return { bars, stretch, anchor: { sample, tick: bars[index]?.start ?? 0, samplesPerTick } };
};
const voice: TakeVoice = {
  id: "take",
  take: {
    name: "Riff",
    bars: [{ bar: barAt(0), length: ticks(192) }],
    offsetMs: 2000,
    lengthMs: (192 * samplesPerTick * 1000) / rate,
    tempo: board.tempo,
  },
  sound: { duration: 8 } as AudioBuffer,
  gain: 1,
};

function deckAt() {
  const deck = new TakeDeck(() => {});
  const follow = (currentTime: number, plan: Plan | undefined) => {
    const context = { sampleRate: rate, currentTime } as AudioContext;
    deck.follow({ context, plan, origin: 0 }, [voice], board.meter);
  };
  return follow;
}

test("a take that would end at a coming bar line ends at once with a stop, and once", () => {
  const follow = deckAt();
  const barSeconds = (192 * samplesPerTick) / rate;
  follow(0.2, planFrom(0, 0));
  expect(ends).toHaveLength(1);
  // It goes out as the band does, so that both together do not clip.
  expect(connected).toContain("out");
  // Other bars go round from the next bar line on: until then the take is heard.
  const line = barSeconds;
  follow(0.5, planFrom(3, Math.round(line * rate)));
  expect(ends[0]).toBeCloseTo(line, 1);
  follow(0.6, undefined);
  expect(ends[0]).toBeLessThan(0.7);
  follow(0.62, undefined);
  expect(ends).toHaveLength(1);
});
