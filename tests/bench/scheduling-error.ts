/** How far from its time an event is heard, in samples, over many rounds of a short loop. */
import { fillDocuments } from "@halflap/board/copy";
import { demoSolution } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { makeEngine } from "@halflap/sound/engine";
import { type Mix, usualMix } from "@halflap/sound/mix";
import { performanceOf, roundsMax } from "@halflap/sound/performance";
import { timelineOf } from "@halflap/timeline/passages";
import type { Figure } from "./figure.ts";

const sampleRate = 44_100;
/** What an audio worklet is asked for at once. */
const block = 128;
const beatsPerBar = 4;
/** An odd one, at which no beat is a whole number of samples. */
const tempoFactor = 0.97;

/** The worst of all clicks, found in the rendered samples. */
export function schedulingError(): Figure {
  const documents = emptyDocuments();
  fillDocuments(documents, demoSolution());
  const board = makeReader(documents)();
  const beat = (60 * sampleRate) / (board.tempo * tempoFactor);
  const range = { first: 0, last: 0 };
  const options = { range, rounds: roundsMax, tempoFactor, countIn: 0 };
  const { events } = performanceOf(board, timelineOf(board), options);
  const count = roundsMax * beatsPerBar;
  const engine = makeEngine(sampleRate, { mix: clickAlone(), seed: 1 });
  engine.schedule(events, { origin: 0, generation: 0 });
  const heard = onsets(engine, Math.ceil(count * beat));
  if (heard.length !== count) throw new Error(`${heard.length} clicks were heard of ${count}`);
  // A click begins with a zero: its first sample that is not is told from the first of them.
  const lead = heard[0] ?? 0;
  const ours = heard.map((at, index) => Math.abs(at - lead - Math.round(index * beat)));
  const summed = heard.map((_, index) => Math.abs(index * Math.round(beat) - index * beat));
  return {
    name: `clicks off their time, the worst of ${count} in ${roundsMax} rounds`,
    unit: "samples",
    value: Math.max(...ours),
    budget: 0,
    baseline: { name: "adding up beats of whole samples", value: Math.max(...summed) },
  };
}

function clickAlone(): Mix {
  const silent = { level: 1, isMuted: true };
  const { click } = usualMix;
  const band = { upper: silent, lower: silent, bass: silent, drums: silent };
  return { ...band, click: { ...click, isMuted: false }, "count-in": silent };
}

/** Every sample at which something begins after a hundredth of a second of nothing. */
function onsets(engine: ReturnType<typeof makeEngine>, length: number): readonly number[] {
  const [left, right] = [new Float32Array(block), new Float32Array(block)];
  const found: number[] = [];
  let silent = sampleRate;
  for (let at = 0; at < length; at += block) {
    engine.render(left, right);
    for (let i = 0; i < block; i += 1) {
      const sounds = left[i] !== 0;
      if (sounds && silent > sampleRate / 100) found.push(at + i);
      silent = sounds ? 0 : silent + 1;
    }
  }
  return found;
}
