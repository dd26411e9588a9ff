/** The browser tests: real servers, real browsers, no second chances. */
import { defineConfig } from "@playwright/test";
import { chromiumLaunch } from "./tests/support/chromium.ts";

export default defineConfig({
  testDir: "tests/browser",
  testMatch: "**/*.spec.ts",
  workers: 2,
  fullyParallel: true,
  retries: 0,
  forbidOnly: true,
  // A machine that is busy is not a broken one: only what hangs is ended.
  timeout: 180_000,
  expect: { timeout: 20_000 },
  use: {
    launchOptions: chromiumLaunch,
    viewport: { width: 1280, height: 900 },
    trace: "off",
    screenshot: "only-on-failure",
  },
});
