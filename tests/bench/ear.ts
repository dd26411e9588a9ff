/** An ear in the page: when the first sample that is not nothing was given, after a press. */
import type { Page } from "@playwright/test";

/** What the page keeps: when it was last pressed, and when sound first followed. */
type Kept = { pressedAt: number; heardAt: number; readonly contexts: BaseAudioContext[] };

/** Passes sound on, and says so when it begins after a twentieth of a second of silence. */
const earModule = `
registerProcessor("ear", class extends AudioWorkletProcessor {
  silent = sampleRate;
  process([input], [output]) {
    for (let side = 0; side < output.length; side += 1) {
      if (input[side]) output[side].set(input[side]);
    }
    const sounds = input.some((side) => side.some((sample) => Math.abs(sample) > 1e-6));
    if (sounds && this.silent > sampleRate / 20) this.port.postMessage(currentFrame);
    this.silent = sounds ? 0 : this.silent + output[0].length;
    return true;
  }
});`;

/** Plain text, for what is sent as a function loses what its names are marked with on the way. */
const script = `
globalThis.kept = { pressedAt: 0, heardAt: 0, contexts: [] };
addEventListener("click", (event) => { kept.pressedAt = event.timeStamp; }, { capture: true });
const plain = AudioNode.prototype.connect;
const source = new Blob([${JSON.stringify(earModule)}], { type: "text/javascript" });
const address = URL.createObjectURL(source);
globalThis.listen = async (node) => {
  await node.context.audioWorklet.addModule(address);
  const ear = new AudioWorkletNode(node.context, "ear", { outputChannelCount: [2] });
  ear.port.onmessage = () => { kept.heardAt = performance.now(); };
  plain.call(node, ear);
  plain.call(ear, node.context.destination);
  kept.contexts.push(node.context);
};
AudioNode.prototype.connect = function (to, ...rest) {
  if (!(this instanceof AudioWorkletNode)) return plain.call(this, to, ...rest);
  listen(this);
  return to;
};`;

/** Puts an ear in place of whatever a worklet is connected to, from the next load on. */
export async function giveEar(page: Page): Promise<void> {
  await page.addInitScript({ content: script });
}

/** Milliseconds from the press that `press` makes to the first sound given after it. */
export async function pressToSound(page: Page, press: () => Promise<void>): Promise<number> {
  await page.evaluate(() => {
    const { kept } = globalThis as unknown as { kept: Kept };
    kept.heardAt = 0;
  });
  await press();
  const waited = await page.waitForFunction(() => {
    const { kept } = globalThis as unknown as { kept: Kept };
    return kept.heardAt > 0 && kept.heardAt - kept.pressedAt;
  });
  return Number(await waited.jsonValue());
}

/** Waits until all audio sleeps, as it does soon after nothing is played any more. */
export async function untilAsleep(page: Page): Promise<void> {
  await page.waitForFunction(() => {
    const { kept } = globalThis as unknown as { kept: Kept };
    return kept.contexts.every(({ state }) => state === "suspended");
  });
}

const plainButton = `(async () => {
  const context = new AudioContext({ latencyHint: "interactive" });
  const gate = new GainNode(context, { gain: 0 });
  const tone = new OscillatorNode(context, { type: "square" });
  tone.connect(gate);
  tone.start();
  await listen(gate);
  await context.suspend();
  const button = document.createElement("button");
  button.id = "plain-tone";
  button.onclick = async () => {
    gate.gain.value = 1;
    await context.resume();
    setTimeout(() => { gate.gain.value = 0; }, 100);
    setTimeout(() => context.suspend(), 300);
  };
  button.textContent = "tone";
  document.body.prepend(button);
})()`;

/** A button that wakes an oscillator: the least that a press can do to be heard. */
export async function addPlainButton(page: Page): Promise<void> {
  await page.evaluate(plainButton);
}
