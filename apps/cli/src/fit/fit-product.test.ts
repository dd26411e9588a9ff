/** Which sums a fit runs on. */
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { bestMinPlus } from "./fit-product.ts";

test("the module that was built is used", () => {
  expect(bestMinPlus().name).toBe("simd");
});

test("where there is none, or none that can be read, the plain sums are", () => {
  expect(bestMinPlus("@halflap/fitter/never-built.wasm").name).toBe("plain");
  expect(bestMinPlus(fileURLToPath(import.meta.url)).name).toBe("plain");
});
