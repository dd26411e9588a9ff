/** Leaving a board by its own ways asks first where something would be lost. */
import { demoSolution } from "@halflap/board/demo";
import { expect, type Page } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { openDuo } from "../support/duo.ts";
import { newPlayer } from "../support/player.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";
import {
  beepingMicrophone,
  openTakes,
  record,
  takes,
  takesTimeout,
} from "../support/takes-page.ts";

test.use({ launchOptions: beepingMicrophone });
test.describe.configure({ timeout: takesTimeout });

let server: TestServer;
test.beforeAll(async () => {
  server = await startTestServer();
});
test.afterAll(async () => removeTestServer(server));

const toDoor = (page: Page) => page.getByRole("link", { name: "All boards" });

/** Answers what is asked before the board is left, and keeps the questions. */
function answering(page: Page): { asked: string[]; leaves: boolean } {
  const answers = { asked: [] as string[], leaves: false };
  page.on("dialog", (dialog) => {
    answers.asked.push(dialog.message());
    void (answers.leaves ? dialog.accept() : dialog.dismiss());
  });
  return answers;
}

test("an edit that is neither saved nor kept is not left behind unasked", async ({ browser }) => {
  const ada = await newPlayer(browser);
  const { page } = ada;
  await page.addInitScript(() => {
    IDBFactory.prototype.open = () => {
      throw new DOMException("not here", "SecurityError");
    };
  });
  const answers = answering(page);
  await ada.makeBoard(server.address, "Ada");
  await ada.claim("lower");
  await ada.seesSaved();
  await ada.isKept();
  const board = page.url();
  await ada.context.setOffline(true);
  await expect(ada.state()).toHaveAttribute("data-state", "offline");
  await ada.typeGrip("lower", 0, "x-1-3-0-3-x");

  await toDoor(page).click();
  await expect.poll(() => answers.asked).toEqual([expect.stringContaining("not saved yet")]);
  await page.evaluate(() => history.back());
  await expect.poll(() => answers.asked.length).toBe(2);
  await expect(page).toHaveURL(board);
  await ada.seesGrip("lower", 0, "x-1-3-0-3-x");

  await ada.context.setOffline(false);
  await ada.seesSaved();
  await toDoor(page).click();
  await expect(page).not.toHaveURL(board);
  expect(answers.asked).toHaveLength(2);
});

test("a take that was not kept yet is not left behind unasked", async ({ browser }) => {
  const { lower } = await openDuo(browser, server.address, demoSolution(), {
    reducedMotion: "reduce",
    permissions: ["microphone"],
  });
  const { page } = lower;
  const answers = answering(page);
  const board = page.url();
  await openTakes(page);
  await record(page);
  await toDoor(page).click();
  await expect.poll(() => answers.asked).toEqual([expect.stringContaining("take")]);
  await expect(page).toHaveURL(board);
  await expect(takes(page).getByRole("button", { name: "Keep it" })).toBeVisible();
  answers.leaves = true;
  await toDoor(page).click();
  await expect(page).not.toHaveURL(board);
});
