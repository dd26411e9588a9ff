/**
 * The player on its own: built as an audio worklet gets it, small, and at home where there is
 * nothing but the language.
 */
import { createContext, runInContext } from "node:vm";
import { gzipSync } from "node:zlib";
import { makeEngine } from "@halflap/sound/engine";
import type { GuitarNote } from "@halflap/sound/play-event";
import { seconds } from "@halflap/sound/seconds";
import { midiNote } from "@halflap/theory/units";
import { build } from "vite";
import { expect, test } from "vitest";
import { root } from "./support/sources.ts";

const kilobytesMax = 10;

const note: GuitarNote = {
  ...{ kind: "guitar", part: "upper", string: 2, pitch: midiNote(62), bend: 2, velocity: 0.7 },
  ...{ technique: "bend", follows: false, start: seconds(0.1), end: seconds(0.4) },
};

async function builtPlayer(): Promise<string> {
  const built = await build({
    configFile: false,
    root,
    logLevel: "silent",
    build: {
      write: false,
      lib: { entry: "packages/sound/src/engine.ts", formats: ["iife"], name: "player" },
    },
  });
  const outputs = [built].flat().flatMap((result) => ("output" in result ? result.output : []));
  return outputs.map((file) => (file.type === "chunk" ? file.code : "")).join("");
}

test("H14 the player is small, and plays alike where there is only the language", async () => {
  const code = await builtPlayer();
  expect(gzipSync(code).length / 1000).toBeLessThan(kilobytesMax);
  const alone = createContext({ event: JSON.stringify(note) });
  runInContext(code, alone);
  const heard: string = runInContext(
    `const engine = player.makeEngine(44100);
     engine.schedule([JSON.parse(event)], { origin: 0, generation: 0 });
     const [left, right] = [new Float32Array(22050), new Float32Array(22050)];
     for (let at = 0; at < 22050; at += 90) {
       engine.render(left.subarray(at, at + 90), right.subarray(at, at + 90));
     }
     JSON.stringify([[...left], [...right]])`,
    alone,
  );
  const engine = makeEngine(44100);
  engine.schedule([note], { origin: 0, generation: 0 });
  const [left, right] = [new Float32Array(22050), new Float32Array(22050)];
  engine.render(left, right);
  expect(left.some((sample) => sample !== 0)).toBe(true);
  expect(JSON.parse(heard)).toEqual([[...left], [...right]]);
});
