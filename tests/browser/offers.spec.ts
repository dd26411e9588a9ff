/** An offer and the answer to it, where the line to the server is away in between. */
import { demoDraft } from "@halflap/board/demo";
import { expect } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { openDuo } from "../support/duo.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
test.beforeAll(async () => {
  server = await startTestServer();
});
test.afterAll(() => removeTestServer(server));

const refused = "A change to the upper lane was not taken";

test("an offer taken offline, and refused after a reload, is offered again", async ({
  browser,
}) => {
  const { upper, lower } = await openDuo(browser, server.address, demoDraft());
  await upper.isKept();
  // The upper lane forgot the capo in bar 9: whatever helps is the upper lane's to do.
  await lower
    .finding(/F7 only as a shape/)
    .first()
    .locator(".finding-words")
    .click();
  await lower.page.getByRole("button", { name: "Offer it to Ben" }).first().click();
  const offered = upper.page.locator(".proposal");
  await expect(offered).toHaveCount(1);
  const words = await offered.locator("p").nth(1).textContent();
  await upper.seesSaved();

  await upper.context.setOffline(true);
  await expect(upper.state()).toHaveAttribute("data-state", "offline");
  await offered.getByRole("button", { name: /^Take:/ }).click();
  await expect(offered).toHaveCount(0);
  await upper.page.reload();
  await upper.seesBoard();
  await expect(upper.state()).toHaveAttribute("data-state", "offline");
  await expect(offered).toHaveCount(0);

  await lower.page.getByRole("button", { name: "Share", exact: true }).click();
  await lower.page.getByLabel("Upper lane: Hand over to…").selectOption({ label: "nobody" });
  await lower.page.getByRole("dialog").getByRole("button", { name: "Close" }).click();
  await expect(lower.row("upper")).toContainText("Free lane");
  await upper.context.setOffline(false);
  await expect(upper.page.getByText(refused)).toBeVisible();
  for (const { page } of [upper, lower]) {
    await expect(page.locator(".proposal")).toContainText(words ?? "");
  }
});
