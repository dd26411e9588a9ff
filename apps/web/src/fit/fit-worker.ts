/** The worker that fits: a desk between the page's questions and its own answers. */
import { fit } from "@halflap/fitter/fit";
import kernelAddress from "@halflap/fitter/kernel.wasm?url";
import { mended } from "@halflap/fitter/mended";
import type { MinPlus } from "@halflap/fitter/min-plus";
import { plainMinPlus } from "@halflap/fitter/plain-min-plus";
import { simdMinPlus } from "@halflap/fitter/simd-min-plus";
import { whyThis } from "@halflap/fitter/why";
import { makeFitDesk } from "./fit-desk.ts";
import type { FitQuestion } from "./fit-messages.ts";

/** The fast product; the plain one where it can't be fetched or the browser refuses it. */
async function bestMinPlus(): Promise<MinPlus> {
  try {
    const kernel = await fetch(kernelAddress);
    if (!kernel.ok) return plainMinPlus;
    return simdMinPlus(new Uint8Array(await kernel.arrayBuffer())) ?? plainMinPlus;
  } catch {
    return plainMinPlus;
  }
}

const desk = bestMinPlus().then((minPlus) =>
  makeFitDesk((reply) => self.postMessage(reply), {
    fit: (board, request, onProgress) => fit(board, request, { minPlus, onProgress }),
    why: (board, request, answer, at) => whyThis(board, request, answer, at, { minPlus }),
    mend: mended,
  }),
);

// Questions that come before the product is there wait for it, in their order.
self.addEventListener("message", ({ data }: MessageEvent<FitQuestion>) => {
  void desk.then((ready) => ready.ask(data));
});
