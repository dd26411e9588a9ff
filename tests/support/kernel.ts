/** The fitter's fast sums, from the module that the build makes. */
import { readFileSync } from "node:fs";
import type { MinPlus } from "@halflap/fitter/min-plus";
import { simdMinPlus } from "@halflap/fitter/simd-min-plus";
import { root } from "./sources.ts";

/** The bytes of the built module. */
export function kernelBytes(): Uint8Array {
  return readFileSync(`${root}packages/fitter/dist/kernel.wasm`);
}

/** The product on vectors; Node has them, so a module that can't be used is a bug. */
export function simd(): MinPlus {
  const product = simdMinPlus(kernelBytes());
  if (product === undefined) throw new Error("kernel.wasm can't be used: npm run build");
  return product;
}

/**
 * The loop that adds and takes minima in registers only: twelve vectors of eight numbers a turn.
 */
export function registerLoop(): (turns: number) => void {
  const { exports } = new WebAssembly.Instance(new WebAssembly.Module(kernelBytes().slice()));
  const turn = exports.registerTurns;
  if (typeof turn !== "function") throw new Error("kernel.wasm has no loop in registers");
  return (turns) => void turn(turns);
}
