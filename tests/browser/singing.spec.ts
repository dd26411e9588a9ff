/** Marking where the voice sings, who sings it, and whose fill each gap is. */
import { demoDraft } from "@halflap/board/demo";
import { expect, type Page } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { openDuo } from "../support/duo.ts";
import { exampleChart, newPlayer } from "../support/player.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
test.beforeAll(async () => {
  server = await startTestServer();
});
test.afterAll(async () => removeTestServer(server));

const panel = (page: Page) => page.locator(".singing-panel");
const cell = (page: Page, name: string) => panel(page).getByRole("button", { name, exact: true });

test("two mark one verse: pulled, pressed, undone, and seen by the other", async ({ browser }) => {
  const ada = await newPlayer(browser);
  await ada.makeBoard(server.address, "Ada", exampleChart);
  const ben = await newPlayer(browser);
  await ben.join(await ada.link("Player link"), "Ben");
  for (const player of [ada, ben]) {
    await player.page
      .getByRole("button", { name: /^Voice in / })
      .first()
      .click();
  }
  // Pulled from beat 1 to the first half of beat 3.
  const { page } = ada;
  const from = await cell(page, "Bar 1, beat 1").boundingBox();
  const to = await cell(page, "Bar 1, beat 3").boundingBox();
  if (from === null || to === null) throw new Error("the cells are drawn");
  await page.mouse.move(from.x + from.width / 2, from.y + from.height / 2);
  await page.mouse.down();
  await page.mouse.move(to.x + to.width / 2, to.y + to.height / 2, { steps: 8 });
  await page.mouse.up();
  await expect(cell(page, "Bar 1, beat 3")).toHaveAttribute("aria-pressed", "true");
  await expect(cell(page, "Bar 1, beat 3 and")).toHaveAttribute("aria-pressed", "false");
  await expect(cell(ben.page, "Bar 1, beat 2 and")).toHaveAttribute("aria-pressed", "true");
  await expect(ben.page.locator(".voice-mark[data-kind=sung]").first()).toBeVisible();

  // By keyboard, and taken back as one step.
  await cell(page, "Bar 2, beat 1").focus();
  await page.keyboard.press("Enter");
  await expect(cell(ben.page, "Bar 2, beat 1")).toHaveAttribute("aria-pressed", "true");
  await page.keyboard.press("Control+z");
  await expect(cell(ben.page, "Bar 2, beat 1")).toHaveAttribute("aria-pressed", "false");
  await expect(cell(ben.page, "Bar 1, beat 1")).toHaveAttribute("aria-pressed", "true");

  // Whose gap it is, and who sings.
  await panel(page)
    .getByLabel(/^Whose fill, from bar 1, beat 3½/)
    .selectOption("upper lane");
  await expect(panel(ben.page).getByLabel(/^Whose fill, from bar 1/)).toHaveValue("upper");
  await panel(ben.page).getByRole("button", { name: "Add a voice" }).click();
  await panel(ben.page).getByLabel("Name").fill("Cleo");
  await panel(ben.page).getByLabel("Name").press("Tab");
  await panel(ben.page).getByLabel("Lowest note").fill("A3");
  await panel(ben.page).getByLabel("Highest note").fill("nine");
  await panel(ben.page).getByLabel("Highest note").press("Tab");
  await expect(panel(ben.page).getByRole("alert")).toContainText("Write a note with its octave");
  await panel(ben.page).getByLabel("Highest note").fill("D5");
  await panel(ben.page).getByLabel("Highest note").press("Tab");
  await panel(page)
    .getByLabel(/^Who sings /)
    .first()
    .selectOption("Cleo");
  await expect(
    panel(ben.page)
      .getByLabel(/^Who sings /)
      .first(),
  ).not.toHaveValue("");
  expect([...ada.problems, ...ben.problems]).toEqual([]);
});

test("the demo's verse shows its phrases and gaps, and a melody is checked as it is typed", async ({
  browser,
}) => {
  const { lower } = await openDuo(browser, server.address, demoDraft());
  const { page } = lower;
  await page.getByRole("button", { name: "Voice in Verse" }).click();
  await expect(cell(page, "Bar 5, beat 1")).toHaveAttribute("aria-pressed", "true");
  await expect(cell(page, "Bar 6, beat 3")).toHaveAttribute("aria-pressed", "false");
  await panel(page).getByText("The melody").click();
  const melody = panel(page).getByLabel("Phrase from bar 5, beat 1");
  await melody.fill("1 H4");
  await melody.press("Tab");
  await expect(panel(page).getByRole("alert")).toContainText("Write a note with its octave");
  await melody.fill("1 F4 2 A4");
  await melody.press("Tab");
  await expect(panel(page).getByRole("alert")).toHaveCount(0);
  await expect(melody).toHaveValue("1 F4  2 A4");
});

test("a pull that is let go outside of the grid is one all the same", async ({ browser }) => {
  const { lower, upper } = await openDuo(browser, server.address, demoDraft());
  for (const { page } of [lower, upper]) {
    await page.getByRole("button", { name: "Voice in Intro" }).click();
  }
  const { page } = lower;
  const from = await cell(page, "Bar 1, beat 4").boundingBox();
  if (from === null) throw new Error("the cells are drawn");
  await page.mouse.move(from.x + from.width / 2, from.y + from.height / 2);
  await page.mouse.down();
  await page.mouse.move(from.x + from.width / 2, 1);
  await page.mouse.up();
  await expect(cell(upper.page, "Bar 1, beat 4")).toHaveAttribute("aria-pressed", "true");
  await expect(cell(upper.page, "Bar 1, beat 3 and")).toHaveAttribute("aria-pressed", "false");
});
