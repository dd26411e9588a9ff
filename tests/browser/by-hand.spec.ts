/** The same job without a mouse, and a copy that is taken away and brought back. */
import { expect, type Page } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { exampleChart, newPlayer } from "../support/player.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
test.beforeAll(async () => {
  server = await startTestServer();
});
test.afterAll(async () => removeTestServer(server));

/** Tabs until the element that a person would look for has the focus. */
async function tabTo(page: Page, isThere: (text: string) => boolean): Promise<void> {
  for (let steps = 0; steps < 80; steps++) {
    const here = await page.evaluate(() => {
      const element = document.activeElement;
      if (element === document.body) return "";
      const label = element?.getAttribute("aria-label") ?? "";
      const labelled = element instanceof HTMLElement && "labels" in element ? element.labels : [];
      const words = [...((labelled as NodeListOf<HTMLElement> | null) ?? [])].map(
        (each) => each.textContent,
      );
      return [label, ...words, element?.textContent ?? ""].join(" ");
    });
    if (isThere(here)) return;
    await page.keyboard.press("Tab");
  }
  throw new Error("the focus never got there");
}

test("a board is made, claimed, gripped, checked and undone by keyboard alone", async ({
  browser,
}) => {
  const ada = await newPlayer(browser);
  const { page } = ada;
  await page.goto(server.address);
  await expect(page.getByRole("heading", { name: "A new board" })).toBeVisible();
  await tabTo(page, (text) => text.includes("The chart, as you would write it"));
  await page.keyboard.insertText(exampleChart);
  await tabTo(page, (text) => text.includes("Your name, as the others"));
  await page.keyboard.type("Ada");
  await page.keyboard.press("Enter");
  await ada.seesBoard();
  await tabTo(page, (text) => text.includes("Claim the lower lane"));
  await page.keyboard.press("Enter");
  await expect(ada.row("lower")).toContainText("Your part");

  // Claiming leaves the keys on the lane's first slot without a grip.
  await expect(ada.slot("lower", 0)).toBeFocused();
  // The board is one stop for Tab; the arrows walk it.
  await page.keyboard.press("ArrowUp");
  await expect(ada.slot("upper", 0)).toBeFocused();
  await page.keyboard.press("ArrowUp");
  await expect(ada.chords(1)).toBeFocused();
  for (let steps = 0; steps < 2; steps++) await page.keyboard.press("ArrowDown");
  await expect(ada.slot("lower", 0)).toBeFocused();
  await page.keyboard.press("Enter");
  await expect(page.locator(".neck-panel")).toBeVisible();
  await tabTo(page, (text) => text.trim() === "Grip");
  await page.keyboard.type("x-1-3-0-3-x");
  await page.keyboard.press("Enter");
  await ada.seesGrip("lower", 0, "x-1-3-0-3-x");
  await page.keyboard.press("Escape");
  await expect(page.locator(".neck-panel")).toHaveCount(0);
  await expect(ada.slot("lower", 0)).toBeFocused();

  // Typing on a slot starts a grip at once.
  await page.keyboard.press("ArrowRight");
  await page.keyboard.type("3-2-0-0-0-1");
  await page.keyboard.press("Enter");
  await ada.seesGrip("lower", 1, "3-2-0-0-0-1");
  await page.keyboard.press("Escape");
  await page.keyboard.press("Control+z");
  await expect(ada.slot("lower", 1).locator(".fret-string")).toHaveCount(0);
  await page.keyboard.press("Shift+Control+z");
  await ada.seesGrip("lower", 1, "3-2-0-0-0-1");
  await ada.seesSaved();
  expect(ada.problems).toEqual([]);
});

test("the demo draft has its findings, its fitted version none that must change", async ({
  browser,
}) => {
  const ada = await newPlayer(browser);
  await ada.page.goto(server.address);
  await ada.page.getByRole("button", { name: "Try it on a tune" }).click();
  await ada.seesBoard();
  await expect(ada.page.locator(".severity-counts")).toContainText("stop");
  const stop = ada.page.locator(".finding", { has: ada.page.locator('[data-severity="stop"]') });
  await expect(stop.first()).toContainText("A♭7");
  // It opens on the stop, once; after that it opens where any board does.
  const picked = ada.page.locator(".finding[data-picked]");
  await expect(picked).toContainText("A♭7");
  await expect(ada.chords(9)).toBeInViewport();
  await ada.page.reload();
  await expect(stop.first()).toBeVisible();
  await expect(picked).toHaveCount(0);
  await ada.page.goto(server.address);
  await ada.page.getByRole("button", { name: "See it fitted" }).click();
  await ada.seesBoard();
  await expect(ada.page.locator(".lane-cell .fret-string").first()).toBeVisible();
  for (const severity of ["stop", "fix"]) {
    await expect(ada.page.locator(`.findings [data-severity="${severity}"]`)).toHaveCount(0);
  }
});

test("a copy that is taken away makes the same board again", async ({ browser }) => {
  const ada = await newPlayer(browser);
  const { page } = ada;
  await page.goto(server.address);
  await page.getByRole("button", { name: "Try it on a tune" }).click();
  await ada.seesBoard();
  // Without the pictures, which are drawn in turn.
  const music = () =>
    page
      .locator(".chord-cell, .lane-cell :is(.spoken, .fret-string), .lane-mark")
      .allTextContents();
  // Once saved, every document of the board has come in.
  await ada.seesSaved();
  const before = await music();
  const take = async () => {
    const download = page.waitForEvent("download");
    await page.getByRole("button", { name: "More", exact: true }).click();
    await page.getByRole("button", { name: "Take a copy of the board" }).click();
    const stream = await (await download).createReadStream();
    let text = "";
    for await (const chunk of stream) text += String(chunk);
    return text;
  };
  const copy = await take();
  await page.goto(server.address);
  await page.locator("input[type=file]").setInputFiles({
    name: "paper-ferry-home.json",
    mimeType: "application/json",
    buffer: Buffer.from(copy),
  });
  await page.getByLabel("Your name, as the others will see it").fill("Ada");
  await page.getByRole("button", { name: "Make the board" }).click();
  await ada.seesBoard();
  await page.getByRole("button", { name: "Claim the upper lane" }).first().click();
  await expect(ada.row("upper")).toContainText("Your part");
  expect(await music()).toEqual(before);
  expect(JSON.parse(await take())).toEqual(JSON.parse(copy));
});

test("the meter is changed in the settings; the leader deletes the board on the door", async ({
  browser,
}) => {
  const ada = await newPlayer(browser);
  const { page } = ada;
  await ada.makeBoard(server.address, "Ada");
  await page.getByRole("button", { name: /^Key, meter, tempo and feel/ }).click();
  await page.getByLabel("Meter", { exact: true }).fill("three");
  await page.getByLabel("Meter", { exact: true }).press("Enter");
  await expect(page.getByText("“three” is no meter I know.")).toBeVisible();
  await page.getByLabel("Meter", { exact: true }).fill("3/4");
  await page.getByLabel("Meter", { exact: true }).press("Enter");
  await expect(page.getByRole("button", { name: /· 3\/4 ·/ })).toBeVisible();
  await ada.seesSaved();
  await page.goto(server.address);
  await page.getByRole("button", { name: "Delete" }).click();
  await page.getByRole("button", { name: /^Really delete/ }).click();
  await expect(page.getByRole("heading", { name: "Your boards" })).toHaveCount(0);
});

test("after renaming, the keys are where they came from; a dialog's are not the board's", async ({
  browser,
}) => {
  const ada = await newPlayer(browser);
  const { page } = ada;
  const button = (name: string) => page.getByRole("button", { name, exact: true });
  await ada.makeBoard(server.address, "Ada");
  await button("Change Intro").click();
  await page.locator(".section-tools").getByRole("textbox").fill("Head");
  await page.keyboard.press("Enter");
  await expect(button("Change Head")).toBeFocused();

  await button("Share").click();
  await button("Change my name").click();
  await page.getByRole("textbox", { name: "Your name" }).fill("Ada L.");
  await page.keyboard.press("Enter");
  await expect(page.getByRole("dialog")).toContainText("Ada L.");
  await expect(button("Change my name")).toBeFocused();
  await page.keyboard.press("Control+z");
  await page.keyboard.press("Escape");
  await expect(page.getByRole("dialog")).toHaveCount(0);
  await expect(button("Change Head")).toBeVisible();
  await page.keyboard.press("Control+z");
  await expect(button("Change Intro")).toBeVisible();
  expect(ada.problems).toEqual([]);
});
