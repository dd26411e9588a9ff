/** A board far longer than the window: its pictures are made where they are looked at. */
import { expect, type Page } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { openDuo } from "../support/duo.ts";
import { fullBoard } from "../support/full-board.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
test.beforeAll(async () => {
  server = await startTestServer();
});
test.afterAll(async () => removeTestServer(server));

/** What is drawn in a line of bars: pegs of grips, notes in the seam, strokes. */
const pictures = [".grip-diagram .peg", ".seam-note", ".step-glyph"] as const;
const line = (page: Page, nth: number) => page.locator("[data-line]").nth(nth);

async function isDrawn(page: Page, nth: number): Promise<void> {
  for (const picture of pictures) {
    await expect(line(page, nth).locator(picture).first()).toBeAttached();
  }
}

async function isNotDrawn(page: Page, nth: number): Promise<void> {
  for (const picture of pictures) await expect(line(page, nth).locator(picture)).toHaveCount(0);
}

test("lines are drawn as they come near, keep height and words, and are all on paper", async ({
  browser,
}) => {
  const { lower, upper } = await openDuo(browser, server.address, fullBoard(64, "dense"));
  const { page } = lower;
  await lower.seesSaved();
  const last = (await page.locator("[data-line]").count()) - 1;

  await test.step("far from the window there are words and room, and no pictures", async () => {
    await isDrawn(page, 0);
    await isNotDrawn(page, last);
    await expect(line(page, last).locator(".fret-string").first()).toHaveText(/^[x\d]/);
    await expect(line(page, last).getByRole("img").first()).toHaveAttribute("aria-label", /./);
  });

  await test.step("scrolled to, a line is as high as the first, which is put away", async () => {
    await line(page, last).scrollIntoViewIfNeeded();
    await isDrawn(page, last);
    await isNotDrawn(page, 0);
    const [first, end] = [await line(page, 1).boundingBox(), await line(page, last).boundingBox()];
    expect(Math.abs((first?.height ?? 0) - (end?.height ?? 0))).toBeLessThan(40);
  });

  await test.step("what the other changed far away is there when it is scrolled to", async () => {
    await upper.typeGrip("upper", 0, "x-x-x-x-x-12");
    await page.evaluate(() => scrollTo(0, 0));
    await isDrawn(page, 0);
    const cell = line(page, 0).locator('[data-lane="upper"] .lane-cell').first();
    await expect(cell.locator(".fret-string")).toHaveText("x-x-x-x-x-12");
    await expect(cell.locator(".peg")).toHaveCount(1);
  });

  await test.step("a print has them all", async () => {
    const count = page.evaluate(
      (picture) =>
        new Promise<readonly [number, number]>((resolve) => {
          addEventListener("beforeprint", () => {
            const lines = [...document.querySelectorAll("[data-line]")];
            const drawn = lines.filter((each) => each.querySelector(picture));
            resolve([drawn.length, lines.length]);
          });
        }),
      pictures[0],
    );
    await page.pdf();
    const [drawn, lines] = await count;
    expect(drawn).toBe(lines);
    await isNotDrawn(page, last);
  });
});
