/** The picture of the board in README.md: the demo tune half fitted, two guitarists at it. */
import { demoDraft } from "@halflap/board/demo";
import { chromium } from "@playwright/test";
import { chromiumLaunch } from "./chromium.ts";
import { openDuo } from "./duo.ts";
import { removeTestServer, startTestServer } from "./server.ts";

/** Writes the picture to a PNG file. */
export async function takePicture(file: string): Promise<void> {
  const server = await startTestServer();
  const browser = await chromium.launch(chromiumLaunch);
  try {
    const look = {
      viewport: { width: 1280, height: 860 },
      deviceScaleFactor: 1.5,
      colorScheme: "light",
      reducedMotion: "reduce",
    } as const;
    const { lower, upper } = await openDuo(browser, server.address, demoDraft(), look);
    await upper.slot("upper", 1).click();
    await lower.slot("lower", 2).click();
    await lower.page.locator(".candidate").first().waitFor();
    await lower.slot("upper", 1).getByText("Ben").first().waitFor();
    await lower.seesSaved();
    await lower.page.evaluate(() => document.fonts.ready.then(() => undefined));
    await lower.page.screenshot({ path: file });
  } finally {
    await browser.close();
    await removeTestServer(server);
  }
}
