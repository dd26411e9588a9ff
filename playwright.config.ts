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
  timeout: 60_000,
  expect: { timeout: 10_000 },
  use: {
    launchOptions: chromiumLaunch,
    viewport: { width: 1280, height: 900 },
    trace: "off",
    screenshot: "only-on-failure",
  },
});
