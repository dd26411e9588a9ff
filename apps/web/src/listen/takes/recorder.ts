/**
 * Records the microphone inside the audio in which the board is played, so that both have one
 * clock; a mark in the recording tells where that clock stands in the file.
 */
import type { Microphone } from "./microphone.ts";
import { findMark, makeMark, markMiddleSeconds } from "./sync-mark.ts";

export type Recorder = {
  /** The highest sample of the last moment, 0 to 1; it falls slowly, so that eyes can follow. */
  level(): number;
  /** Whether it was too loud for the microphone's input so far. */
  hasClipped(): boolean;
  /** Whether the microphone went away, or the recording failed: nothing more comes in. */
  isBroken(): boolean;
  /**
   * Puts in the mark, soon, and lets the microphone in after it; until then the recording is
   * silent. Answers the context's time from which on the microphone is recorded.
   */
  mark(): number;
  /** Ends the recording. */
  stop(): Promise<Recording>;
  /** Ends it and keeps nothing. */
  cancel(): void;
};

export type Recording = {
  readonly blob: Blob;
  readonly sound: AudioBuffer;
  readonly hasClipped: boolean;
  /** Where in the file a time of the context lies, in seconds. */
  fileSeconds(contextTime: number): number;
};

/** Opus first: small, and free of the padding that others put before the sound. */
const kinds = ["audio/webm;codecs=opus", "audio/ogg;codecs=opus", "audio/mp4"];
const bitsPerSecond = 128_000;
const clippedLevel = 0.99;
/** Decibels that the shown level falls in a second. */
const fallDb = 20;
/** Seconds from the order to the mark, and from the mark's middle to the open microphone. */
const markAfter = 0.04;
const openAfter = 0.03;

/** Starts to record; nothing of the microphone is in it before the mark. Throws when it can't. */
export function startRecorder(context: AudioContext, microphone: Microphone): Recorder {
  const source = new MediaStreamAudioSourceNode(context, { mediaStream: microphone.stream });
  const ear = new AnalyserNode(context, { fftSize: 2048 });
  const gate = new GainNode(context, { gain: 0 });
  const tape = new MediaStreamAudioDestinationNode(context, { channelCount: 1 });
  source.connect(ear);
  source.connect(gate).connect(tape);
  const kind = kinds.find((each) => MediaRecorder.isTypeSupported(each));
  const options = { audioBitsPerSecond: bitsPerSecond, ...(kind ? { mimeType: kind } : {}) };
  const recorder = new MediaRecorder(tape.stream, options);
  const pieces: Blob[] = [];
  recorder.ondataavailable = ({ data }) => pieces.push(data);
  const { isBroken, end } = endingOf(recorder, microphone);
  recorder.start();
  let marked = context.currentTime;
  let clipped = false;
  let shown = { level: 0, at: context.currentTime };
  const window = new Float32Array(ear.fftSize);
  const release = () => {
    for (const node of [source, ear, gate]) node.disconnect();
  };
  return {
    level() {
      ear.getFloatTimeDomainData(window);
      const peak = window.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
      clipped ||= peak >= clippedLevel;
      const at = context.currentTime;
      const fallen = shown.level * 10 ** ((-fallDb * (at - shown.at)) / 20);
      shown = { level: Math.min(1, Math.max(peak, fallen)), at };
      return shown.level;
    },
    hasClipped: () => clipped,
    isBroken,
    mark() {
      const at = context.currentTime + markAfter;
      marked = at + markMiddleSeconds;
      playMark(context, tape, at);
      const open = marked + openAfter;
      gate.gain.setValueAtTime(0, open);
      gate.gain.linearRampToValueAtTime(1, open + openAfter);
      return open + openAfter;
    },
    async stop() {
      const endTime = context.currentTime;
      await end();
      release();
      const blob = new Blob(pieces, { type: recorder.mimeType });
      const sound = await decodeSound(await blob.arrayBuffer());
      const found = findMark(sound.getChannelData(0), sound.sampleRate);
      // Without the mark the end is known best: that is where the recording was cut off.
      const shift = found === undefined ? sound.duration - endTime : found - marked;
      return { blob, sound, hasClipped: clipped, fileSeconds: (time) => time + shift };
    },
    cancel() {
      recorder.ondataavailable = null;
      if (recorder.state !== "inactive") recorder.stop();
      release();
    },
  };
}

/** Decodes a recording beside the audio that plays. Rejects what the browser can't read. */
export function decodeSound(bytes: ArrayBuffer): Promise<AudioBuffer> {
  const sampleRate = 48_000;
  return new OfflineAudioContext(1, 1, sampleRate).decodeAudioData(bytes);
}

function playMark(context: AudioContext, tape: AudioNode, at: number): void {
  const samples = makeMark(context.sampleRate);
  const buffer = new AudioBuffer({ length: samples.length, sampleRate: context.sampleRate });
  buffer.copyToChannel(samples, 0);
  const mark = new AudioBufferSourceNode(context, { buffer });
  mark.connect(tape);
  mark.start(at);
}

/** Whether nothing more comes in, and the end after which all pieces are there. */
function endingOf(recorder: MediaRecorder, { stream }: Microphone) {
  // It comes after a failure too.
  const ended = new Promise<void>((resolve) => {
    recorder.onstop = () => resolve();
  });
  let isBroken = false;
  const onBroken = () => {
    isBroken = true;
  };
  recorder.onerror = onBroken;
  for (const track of stream.getAudioTracks()) track.addEventListener("ended", onBroken);
  return {
    isBroken: () => isBroken,
    end(): Promise<void> {
      if (recorder.state !== "inactive") recorder.stop();
      return ended;
    },
  };
}
