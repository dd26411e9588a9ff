/** A newer page on the server reaches whoever has an older one in the browser. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "@playwright/test";
import { newPlayer } from "../support/player.ts";
import { removeTestServer, startTestServer } from "../support/server.ts";

/** The built page with another title, as a later build would leave it. */
function publishNewer(folder: string): void {
  const page = join(folder, "index.html");
  writeFileSync(page, readFileSync(page, "utf8").replace("<head>", '<head data-edition="two">'));
  const worker = join(folder, "sw.js");
  const text = readFileSync(worker, "utf8");
  expect(text).toMatch(/index\.html",revision:"[0-9a-f]{8}/);
  writeFileSync(worker, text.replaceAll(/(revision:")[0-9a-f]{8}/g, "$100000002"));
  for (const file of [page, worker]) rmSync(`${file}.gz`, { force: true });
}

test("a page that was fetched meanwhile takes over when the old one is loaded again", async ({
  browser,
}) => {
  const folder = mkdtempSync(join(tmpdir(), "halflap-page-"));
  cpSync("apps/web/dist", folder, { recursive: true });
  const server = await startTestServer({ variables: { HALFLAP_WEB: folder } });
  try {
    const { page } = await newPlayer(browser);
    const edition = () => page.locator("head").getAttribute("data-edition");
    await page.goto(server.address);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await page.reload();
    publishNewer(folder);
    await page.reload();
    const waiting = () =>
      page.evaluate(async () => {
        const shell = await navigator.serviceWorker.getRegistration();
        return shell?.waiting?.state;
      });
    await expect.poll(waiting).toBe("installed");
    expect(await edition()).toBeNull();
    await page.reload();
    await expect.poll(edition).toBe("two");
    await expect(page.getByRole("heading", { name: "A new board" })).toBeVisible();
  } finally {
    await removeTestServer(server);
    rmSync(folder, { recursive: true, force: true });
  }
});
