/** The player, from its samples. */
import { stringNumbers } from "@halflap/theory/tuning";
import { describe, expect, test } from "vitest";
import {
  type Engine,
  type EngineOptions,
  fadeSeconds,
  lateMaxSeconds,
  makeEngine,
} from "./engine.ts";
import { usualMix } from "./mix.ts";
import { renderWhole } from "./offline.ts";
import type { PlayEvent } from "./play-event.ts";
import { seconds } from "./seconds.ts";
import { charted, demoBoard, gripped, muted, only, played } from "./test-support/boards.ts";
import { note } from "./test-support/one-note.ts";
import { levelOf } from "./test-support/spectrum.ts";

const rate = 44100;
const usual: EngineOptions = { mix: usualMix, seed: 1 };
const now = { origin: 0, generation: 0 };

/** The next so many samples, asked for in blocks of one size. */
function rendered(engine: Engine, length: number, block = length) {
  const [left, right] = [new Float32Array(length), new Float32Array(length)];
  for (let at = 0; at < length; at += block) {
    engine.render(left.subarray(at, at + block), right.subarray(at, at + block));
  }
  return { left, right };
}

function playing(events: readonly PlayEvent[], options = usual): Engine {
  const engine = makeEngine(rate, options);
  engine.schedule(events, now);
  return engine;
}

const opening = played(demoBoard, { range: { first: 0, last: 5 } });

describe("H14 samples", () => {
  test("H14 do not depend on the size of the blocks", () => {
    const whole = rendered(playing(opening.events), 4 * rate);
    for (const block of [1, 37, 128, 1000]) {
      const { left, right } = rendered(playing(opening.events), 4 * rate, block);
      expect(
        left.every((sample, i) => sample === whole.left[i]),
        `${block}`,
      ).toBe(true);
      expect(
        right.every((sample, i) => sample === whole.right[i]),
        `${block}`,
      ).toBe(true);
    }
  });

  test("H14 are the same for one seed, others for another", () => {
    const [first, again] = [1, 1].map(() => rendered(playing(opening.events), 4 * rate));
    const other = rendered(playing(opening.events, { mix: usualMix, seed: 2 }), 4 * rate);
    expect(first?.left).toEqual(again?.left);
    expect(first?.left).not.toEqual(other.left);
  });

  test("H14 a note starts at the sample nearest to its time", () => {
    for (const start of [0.1, 0.25001, 0.333333]) {
      const { left } = rendered(playing([note({ start: seconds(start) })]), rate);
      expect(left.findIndex((sample) => sample !== 0)).toBe(Math.round(start * rate));
    }
  });

  test("H14 the strokes of a bar are heard where they are played, within a block", () => {
    const plain = charted("F, 80, no bass", "| F7 | F7 |");
    const board = muted(gripped(plain, "upper", "x-x-x-10-x-x", "D.D..UD."), "upper");
    const performance = played(board, { countIn: 0 });
    const starts = performance.events.flatMap((event) =>
      event.kind === "guitar" ? [Math.floor((event.start * rate) / 128)] : [],
    );
    const length = Math.floor((performance.end * rate) / 128) * 128;
    const { left } = rendered(playing(performance.events, only("upper")), length);
    const heard = attacksIn(left);
    expect(heard).toHaveLength(8);
    const apart = heard.map((block, i) => Math.abs(block - (starts[i] ?? Number.NaN)));
    expect(Math.max(...apart)).toBeLessThanOrEqual(1);
  });

  test("H14 are numbers, all of them", () => {
    const { left, right } = renderWhole(opening, rate, usual);
    expect([...left, ...right].every(Number.isFinite)).toBe(true);
    expect(levelOf(left, 0, left.length)).toBeGreaterThan(0.01);
  });
});

/** The blocks of 128 that are twice as loud as all of the three before. */
function attacksIn(sound: Float32Array): readonly number[] {
  const blocks = Array.from({ length: sound.length / 128 }, (_, block) =>
    sound
      .subarray(block * 128, (block + 1) * 128)
      .reduce((peak, sample) => Math.max(peak, Math.abs(sample)), 0),
  );
  const isLoud = (block: number) => {
    const before = Math.max(...[1, 2, 3, 4].map((back) => blocks[block - back] ?? 0));
    return (blocks[block] ?? 0) > Math.max(0.01, 2 * before);
  };
  return blocks.flatMap((_, block) => (isLoud(block) && !isLoud(block - 1) ? [block] : []));
}

describe("H18 loud bands", () => {
  const chord = [1, 2, 3, 4, 5, 6].map((string) =>
    note({ string: stringNumbers[6 - string] ?? 1, pitch: 40 + 5 * string, velocity: 1 }),
  );
  const all = [...chord, ...chord.map((one): typeof one => ({ ...one, part: "upper" }))];
  const loudest = { level: 2, isMuted: false };
  const mix = { ...usualMix, upper: loudest, lower: loudest };
  const peakOf = ({ left }: { readonly left: Float32Array }) =>
    left.reduce((most, x) => Math.max(most, Math.abs(x)), 0);

  test("H18 what would clip is bent for ears, and left as it is for files", () => {
    const [exact, live] = [false, true].map((bendsPeaks) =>
      rendered(playing(all, { mix, seed: 1, bendsPeaks }), rate),
    );
    if (exact === undefined || live === undefined) throw new Error("both were rendered");
    expect(peakOf(exact)).toBeGreaterThan(1);
    expect(peakOf(live)).toBeLessThan(1);
    const small = exact.left.every((x, i) => Math.abs(x) > 0.85 || x === live.left[i]);
    expect(small).toBe(true);
  });
});

describe("H16 stop", () => {
  test("H16 all is silent after the fade, and stays so", () => {
    const engine = playing(opening.events);
    const before = rendered(engine, 6 * rate);
    engine.stop();
    const after = rendered(engine, 3 * rate);
    expect(levelOf(before.left, 5 * rate, 6 * rate)).toBeGreaterThan(0.001);
    expect(after.left.subarray(Math.ceil(fadeSeconds * rate)).every((x) => x === 0)).toBe(true);
    expect(after.right.subarray(Math.ceil(fadeSeconds * rate)).every((x) => x === 0)).toBe(true);
  });

  test("H16 without a click", () => {
    const engine = playing([note()]);
    const before = rendered(engine, rate).left.subarray(rate / 2);
    engine.stop();
    const fade = rendered(engine, 1000).left;
    const jumps = (sound: Float32Array) =>
      sound.reduce(
        (most, x, i) => Math.max(most, i === 0 ? 0 : Math.abs(x - (sound[i - 1] ?? 0))),
        0,
      );
    expect(jumps(fade)).toBeLessThan(1.05 * jumps(before));
  });

  test("H16 what is scheduled once it is silent is heard", () => {
    const engine = playing(opening.events);
    rendered(engine, rate);
    engine.stop();
    rendered(engine, rate);
    engine.schedule([note()], { origin: 2 * rate + 10, generation: 0 });
    const again = rendered(engine, rate).left;
    expect(again.findIndex((sample) => sample !== 0)).toBe(10);
  });
});

describe("H17 edits while it plays", () => {
  const old = [0, 1, 2, 3].map((at) => note({ start: seconds(at), end: seconds(at + 0.9) }));
  const fresh = [2.3, 3.4].map((at) =>
    note({ start: seconds(at), end: seconds(at + 0.9), pitch: 52 }),
  );

  test("H17 from a sample on the new generation plays, as if it always had", () => {
    const engine = playing(old);
    const start = rendered(engine, 1.5 * rate);
    engine.replaceFrom(2 * rate, 1);
    engine.schedule(fresh, { origin: 0, generation: 1 });
    const rest = rendered(engine, 2.5 * rate);
    const whole = rendered(playing([...old.slice(0, 2), ...fresh]), 4 * rate);
    const parts = [...start.left, ...rest.left];
    expect(parts.every((sample, i) => sample === whole.left[i])).toBe(true);
  });

  test("H17 an older generation is refused", () => {
    const engine = playing([]);
    engine.replaceFrom(0, 2);
    engine.schedule(old, { origin: 0, generation: 1 });
    expect(levelOf(rendered(engine, rate).left, 0, rate)).toBe(0);
  });

  test("H17 a little late sounds at once, too late not at all", () => {
    const lateBy = (late: number) => {
      const engine = playing([]);
      rendered(engine, rate);
      engine.schedule([note()], { origin: rate - Math.round(late * rate), generation: 0 });
      return rendered(engine, 1000).left.findIndex((sample) => sample !== 0);
    };
    expect(lateBy(lateMaxSeconds / 2)).toBe(0);
    expect(lateBy(2 * lateMaxSeconds)).toBe(-1);
  });
});

describe("H19 loops", () => {
  test("H19 a hundred rounds drift by no sample", () => {
    const board = charted("F, 193", "| F |");
    const performance = played(board, { rounds: 100, countIn: 0, tempoFactor: 1.5 });
    const bar = (4 * 60) / (193 * 1.5);
    const { left } = renderWhole(performance, rate, only("click"));
    const starts = performance.bars.map(({ start }) => Math.round(start * rate));
    expect(starts).toEqual(Array.from({ length: 100 }, (_, k) => Math.round(k * bar * rate)));
    // A click starts from zero, so its second sample is the first that is heard.
    for (const start of starts) {
      expect(left.subarray(start - 100, start + 1).every((sample) => sample === 0)).toBe(true);
      expect(left[start + 1]).not.toBe(0);
    }
  });
});
