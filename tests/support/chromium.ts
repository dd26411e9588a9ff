/** How every test and bench launches the browser. */
import { chromiumArgs, findChromium } from "../../scripts/chromium.mjs";

const found = findChromium();

/** Options for Playwright's `chromium.launch`; without a browser of our own it tries its own. */
export const chromiumLaunch = {
  args: chromiumArgs,
  ...(found === undefined ? {} : { executablePath: found }),
};
