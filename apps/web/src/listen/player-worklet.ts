/** The player in the audio: takes orders, gives samples, says how far it is. */
import { makeEngine } from "@halflap/sound/engine";
import type { PlayerOrder, Position } from "./player-messages.ts";

// What the audio's own scope offers, which the compiler's library does not know.
declare const sampleRate: number;
declare const currentTime: number;
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare function registerProcessor(
  name: string,
  maker: new () => AudioWorkletProcessor & {
    process(inputs: unknown, outputs: readonly (readonly Float32Array[])[]): boolean;
  },
): void;

/** Samples between two words about the position: about a fiftieth of a second. */
const positionEvery = 1024;

class Player extends AudioWorkletProcessor {
  readonly #engine = makeEngine(sampleRate);
  #conductor: MessagePort | undefined;
  #told = 0;

  constructor() {
    super();
    this.port.onmessage = ({ data, ports: [conductor] }: MessageEvent<PlayerOrder>) => {
      if (conductor === undefined) {
        this.#follow(data);
        return;
      }
      conductor.onmessage = (event: MessageEvent<PlayerOrder>) => this.#follow(event.data);
      this.#conductor = conductor;
    };
  }

  #follow(order: PlayerOrder): void {
    const engine = this.#engine;
    switch (order.kind) {
      case "events":
        engine.schedule(order.events, order);
        return;
      case "replace":
        engine.replaceFrom(order.from, order.generation);
        return;
      case "mix":
        engine.setPart(order.part, order.setting);
        return;
      case "stop":
        engine.stop();
    }
  }

  process(_inputs: unknown, [output]: readonly (readonly Float32Array[])[]): boolean {
    const [left, right] = output ?? [];
    if (left && right) this.#engine.render(left, right);
    const sample = this.#engine.position();
    if (sample - this.#told >= positionEvery) {
      this.#told = sample;
      // The time is that of the block's first sample.
      const time = currentTime + (left?.length ?? 0) / sampleRate;
      const position: Position = { sample, time };
      this.#conductor?.postMessage(position);
      this.port.postMessage(position);
    }
    return true;
  }
}

registerProcessor("halflap-player", Player);
