/** Compiles the fitter's inner loop from its source to WebAssembly. */
import { mkdirSync, statSync } from "node:fs";
import { dirname, join } from "node:path";

/** What it is made of, and what it becomes; paths from the root. */
export const kernel = {
  sources: ["packages/fitter/kernel/min-plus.ts", "packages/fitter/kernel/messages.ts"],
  built: "packages/fitter/dist/kernel.wasm",
  bytesMax: 8192,
};

/** The compiler's script and its arguments.
 * @param {string} root @returns {[string, ...string[]]} */
export function kernelCommand(root) {
  mkdirSync(dirname(join(root, kernel.built)), { recursive: true });
  return [
    join(root, "node_modules/assemblyscript/bin/asc.js"),
    ...[...kernel.sources, "--outFile", kernel.built, "--baseDir", "."],
    // Without a runtime, checks and an imported `abort`: a loop over numbers needs none of them.
    ...["--runtime", "stub", "-O3", "--noAssert", "--use", "abort=", "--enable", "simd"],
  ];
}

/** Throws when the module is larger than a page may be asked to load.
 * @param {string} root */
export function weighKernel(root) {
  const { size } = statSync(join(root, kernel.built));
  if (size > kernel.bytesMax) {
    throw new Error(`${kernel.built} has ${size} bytes; at most ${kernel.bytesMax} are allowed`);
  }
}
