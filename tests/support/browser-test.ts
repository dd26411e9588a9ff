/** The `test` of the browser specs: the pages that one opened are closed behind it. */
import { test as plain } from "@playwright/test";

/** Pages left open would go on playing and drawing beside all tests that follow. */
export const test = plain.extend<{ leftovers: undefined }>({
  leftovers: [
    async ({ browser }, use) => {
      await use(undefined);
      await Promise.all(browser.contexts().map((context) => context.close()));
    },
    { auto: true },
  ],
});
