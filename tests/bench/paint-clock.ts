/** Clocks inside pages: when a key was pressed in one, when its effect was painted in another. */
import type { Page } from "@playwright/test";

/** Notes the moment of each press of Enter, before anything else hears of it. */
export async function watchEnter(page: Page): Promise<void> {
  await page.evaluate(() => {
    document.addEventListener(
      "keydown",
      (event) => {
        const pressedAt = performance.timeOrigin + event.timeStamp;
        if (event.key === "Enter") document.body.dataset.pressedAt = String(pressedAt);
      },
      true,
    );
  });
}

/** When Enter was last pressed, in ms of the machine's clock. */
export async function pressedAt(page: Page): Promise<number> {
  return Number(await page.evaluate(() => document.body.dataset.pressedAt));
}

/**
 * Starts to watch an element, the `index`th that matches, for a text. Resolves once the watch
 * stands; `paintedAt` then resolves with the moment after the frame that shows the text.
 */
export async function watchPaint(
  page: Page,
  element: { readonly selector: string; readonly index: number },
  text: string,
): Promise<{ readonly paintedAt: () => Promise<number> }> {
  const handle = await page.evaluateHandle(
    ({ selector, index, text }) => {
      const painted = new Promise<number>((resolve) => {
        // No named function here: tsx would mark its name by means that the page does not have.
        new MutationObserver((_, watch) => {
          if (document.querySelectorAll(selector)[index]?.textContent !== text) return;
          watch.disconnect();
          requestAnimationFrame(() => {
            // The message arrives after the frame was drawn.
            const { port1, port2 } = new MessageChannel();
            port1.onmessage = () => resolve(performance.timeOrigin + performance.now());
            port2.postMessage(undefined);
          });
        }).observe(document.body, { childList: true, subtree: true, characterData: true });
      });
      return { painted };
    },
    { ...element, text },
  );
  return { paintedAt: () => handle.evaluate(({ painted }) => painted) };
}
