/** A band and takes on one way out never clip, and what is not loud stays as it is. */
import { bent } from "@halflap/sound/engine";
import { expect, test, vi } from "vitest";
import { bendCurve, wayOut } from "./way-out.ts";

/** As a wave shaper reads its curve, which spans -1 to 1 (Web Audio API, WaveShaperNode). */
function shaped(curve: Float32Array, sample: number): number {
  const at = ((Math.max(-1, Math.min(1, sample)) + 1) / 2) * (curve.length - 1);
  const [below, share] = [Math.floor(at), at % 1];
  return (1 - share) * (curve[below] ?? 0) + share * (curve[below + 1] ?? 0);
}

test.each([0, 0.1, -0.5, 0.849, 0.9, -1, 1.49, 2.5, -4, 9])(
  "%f goes out as the band does",
  (sum) => {
    const heard = shaped(bendCurve(), sum / 4);
    expect(heard).toBeCloseTo(bent(sum), 4);
    expect(Math.abs(heard)).toBeLessThan(1);
  },
);

test("one way out for each context, through the bend to the loudspeaker", () => {
  const lines: string[] = [];
  const named = (name: string) =>
    class {
      readonly name = name;
      connect<T extends { readonly name: string }>(to: T): T {
        lines.push(`${name} > ${to.name}`);
        return to;
      }
    };
  vi.stubGlobal("GainNode", named("gain"));
  vi.stubGlobal("WaveShaperNode", named("bend"));
  const context = { destination: { name: "out" } } as unknown as AudioContext;
  expect(wayOut(context)).toBe(wayOut(context));
  expect(lines).toEqual(["gain > bend", "bend > out"]);
  vi.unstubAllGlobals();
});
