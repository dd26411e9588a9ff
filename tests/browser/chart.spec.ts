/** The chart under the hands of its players: bars set aside and back, chords borrowed and not. */
import { demoDraft } from "@halflap/board/demo";
import { expect } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { openDuo } from "../support/duo.ts";
import { newPlayer } from "../support/player.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
test.beforeAll(async () => {
  server = await startTestServer();
});
test.afterAll(async () => removeTestServer(server));

test("a removed bar is known by its chords and comes back to a chosen section", async ({
  browser,
}) => {
  const ada = await newPlayer(browser);
  const { page } = ada;
  await ada.makeBoard(server.address, "Ada");
  await ada.chords(2).click();
  await page.getByRole("button", { name: "Remove Bar 2" }).click();
  await expect(ada.chords(2)).toContainText("Cm7");
  await expect(ada.chords(2)).toBeFocused();

  await page.getByLabel("Bring back to the end of").selectOption({ label: "Verse" });
  await page.getByRole("button", { name: "Bring back G7 at the end of Verse" }).click();
  await expect(page.locator(".set-aside")).toHaveCount(0);
  await expect(ada.chords(12)).toContainText("G7");
  await expect(ada.chords(12)).toBeFocused();
  expect(ada.problems).toEqual([]);
});

test("what is too late for a shorter bar waits in sight, and is back in a longer one", async ({
  browser,
}) => {
  const ada = await newPlayer(browser);
  const { page } = ada;
  await ada.makeBoard(server.address, "Ada");
  await page.getByRole("button", { name: "Voice in Intro" }).click();
  await page.getByRole("button", { name: "Bar 2, beat 4", exact: true }).click();
  await page.getByRole("button", { name: "Close" }).click();
  const tray = page.getByRole("region", { name: "Set aside" });
  await expect(tray).toHaveCount(0);

  const meter = async (text: string) => {
    await page.getByRole("button", { name: /^Key, meter, tempo and feel/ }).click();
    await page.getByLabel("Meter", { exact: true }).fill(text);
    await page.getByLabel("Meter", { exact: true }).press("Enter");
    await page.keyboard.press("Escape");
  };
  await meter("3/4");
  await expect(tray).toContainText("Sung phrase: bar 2, on 4");
  await tray.getByRole("button", { name: /^Make the bar longer for Sung phrase/ }).click();
  await expect(tray).toHaveCount(0);
  await expect(ada.chords(2)).toBeFocused();

  await page.getByRole("button", { name: "Undo" }).click();
  await expect(tray).toContainText("Sung phrase: bar 2, on 4");
  await tray.getByRole("button", { name: /^Remove Sung phrase/ }).click();
  await expect(tray).toHaveCount(0);
  expect(ada.problems).toEqual([]);
});

test("a section plays the chords of another, and its own again", async ({ browser }) => {
  const ada = await newPlayer(browser);
  const { page } = ada;
  await ada.makeBoard(server.address, "Ada");
  await page.getByRole("button", { name: "Change Verse" }).click();
  const chords = page.getByRole("combobox", { name: "Chords" });
  await chords.selectOption({ label: "of Intro" });
  await expect(page.getByText("4 bars · chords of Intro")).toBeVisible();
  await expect(page.locator(".chord-cell")).toHaveCount(8);
  await chords.selectOption({ label: "its own" });
  await expect(page.locator(".chord-cell")).toHaveCount(12);
  expect(ada.problems).toEqual([]);
});

test("a form that both change at once has what each added", async ({ browser }) => {
  const ada = await newPlayer(browser);
  const ben = await newPlayer(browser);
  await ada.makeBoard(server.address, "Ada");
  await ben.join(await ada.link("Player link"), "Ben");
  const form = ben.page.getByRole("navigation", { name: "Form" }).locator(".form-name");
  await expect(form).toHaveText([/^Intro/, /^Verse/]);
  const add = async ({ page }: typeof ada, section: string) => {
    await page.getByRole("button", { name: "Change the form" }).click();
    await page.getByRole("button", { name: `+ ${section}` }).click();
  };
  const keep = ({ page }: typeof ada) => page.getByRole("button", { name: "Keep" }).click();
  await add(ada, "Intro");
  await add(ben, "Verse");
  await keep(ben);
  await expect(ada.page.locator(".form-name")).toHaveText([/^Intro/, /^Verse/, /^Verse/]);
  await keep(ada);
  await expect(form).toHaveText([/^Intro/, /^Verse/, /^Verse/, /^Intro/]);

  await ada.page.getByRole("button", { name: "Change the form" }).click();
  const more = ada.page.getByRole("button", { name: "+ Intro" });
  await more.evaluate((button: HTMLButtonElement) => {
    for (let entry = 0; entry < 130; entry += 1) button.click();
  });
  await expect(more).toBeDisabled();
  await ada.page.setViewportSize({ width: 320, height: 600 });
  const dialog = ada.page.getByRole("dialog");
  await dialog.evaluate((sheet) => sheet.scrollTo(0, 0));
  for (const button of ["Move Intro later", "Remove Intro", "Keep", "Close"]) {
    const first = dialog.getByRole("button", { name: button }).first();
    await expect(first, button).toBeInViewport({ ratio: 1 });
  }
  await expect(dialog).toContainText("Remove one to add another.");
  await keep(ada);
  await expect(form).toHaveCount(128);
  expect([...ada.problems, ...ben.problems]).toEqual([]);
});

test("chords being typed stay where they are when their line is drawn anew", async ({
  browser,
}) => {
  const ada = await newPlayer(browser);
  const { page } = ada;
  await ada.makeBoard(server.address, "Ada");
  await ada.chords(4).click();
  const field = page.locator(".bar-writer input");
  await field.fill("Gm7 C");
  await page.setViewportSize({ width: 390, height: 844 });
  await expect(page.locator("[data-columns]").first()).not.toHaveAttribute("data-columns", "4");
  await expect(field).toHaveValue("Gm7 C");
  await page.keyboard.type("7");
  await ada.chords(1).click();
  await expect(field).toHaveValue("Bb6");
  await ada.chords(4).click();
  await expect(field).toHaveValue("Gm7 C7");
  await page.keyboard.press("Escape");
  await ada.chords(4).click();
  await expect(field).toHaveValue("F7");
  expect(ada.problems).toEqual([]);
});

test("a chord that the other wrote out of its bar comes back with its grips", async ({
  browser,
}) => {
  const { lower, upper } = await openDuo(browser, server.address, demoDraft());
  const tray = upper.page.getByRole("region", { name: "Set aside" });
  await expect(upper.chords(6)).toContainText("D7");
  await expect(tray).toHaveCount(0);
  await lower.chords(6).click();
  const field = lower.page.getByRole("textbox", { name: "Chords of bar 6" });
  await field.fill("F7");
  await field.press("Enter");
  await expect(tray).toContainText("D7, bar 6: grips of both lanes");
  await expect(upper.chords(6)).not.toContainText("D7");
  await tray.getByRole("button", { name: /^Bring back D7/ }).click();
  await expect(tray).toHaveCount(0);
  await expect(upper.chords(6)).toContainText("D7");
  await expect(upper.chords(6)).toBeFocused();
  await expect(lower.chords(6)).toContainText("D7");
  expect([...lower.problems, ...upper.problems]).toEqual([]);
});
