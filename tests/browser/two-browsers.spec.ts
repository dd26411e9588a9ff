/** The main job from end to end: two guitarists, two browsers, one tune, and a listener. */
import { expect } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { newPlayer } from "../support/player.ts";
import { removeTestServer, startTestServer } from "../support/server.ts";

/** Grips of the whole example chart: 13 slots, since bar 7 and its repeat have two each. */
const lower = [
  "x-1-3-0-3-x",
  "3-2-0-0-0-1",
  "x-3-5-3-4-3",
  "1-3-1-2-1-1",
  "x-1-3-0-3-x",
  "x-x-0-2-1-2",
  "3-5-3-3-3-3",
  "x-3-2-3-1-0",
  "3-5-3-3-3-3",
  "x-3-2-3-1-0",
  "x-6-5-5-4-x",
  "x-x-2-3-2-3",
  "x-x-3-3-3-1",
  "1-3-1-2-1-1",
];

test("two guitarists fit a tune together, and a SIGKILL takes nothing from them", async ({
  browser,
}) => {
  let server = await startTestServer();
  try {
    const ada = await newPlayer(browser);
    await ada.makeBoard(server.address, "Ada");
    await expect(ada.page.locator(".chord-symbol")).toHaveCount(lower.length);
    await ada.claim("lower");

    const ben = await newPlayer(browser);
    await ben.join(await ada.link("Player link"), "Ben");
    expect(new URL(ben.page.url()).hash).toBe("");
    await expect(ben.row("lower")).toContainText("Ada’s part");
    await ben.claim("upper");
    await expect(ada.row("upper")).toContainText("Ben’s part");

    await test.step("grips for every slot: typed", async () => {
      for (const [index, frets] of lower.entries()) await ada.typeGrip("lower", index, frets);
      for (const [index, frets] of lower.entries()) await ben.seesGrip("lower", index, frets);
    });

    await test.step("presence: Ben sees where Ada stands", async () => {
      await ada.slot("lower", 2).click();
      await expect(ben.slot("lower", 2)).toContainText("Ada is here");
    });

    await test.step("the same grip in both lanes is flagged on both screens", async () => {
      await ben.typeGrip("upper", 0, lower[0] ?? "");
      for (const player of [ada, ben]) {
        await expect(player.finding(/same/i).first()).toBeVisible();
        await expect(player.page.locator(".seam-row [data-severity]").first()).toBeVisible();
      }
    });

    await test.step("grips for every slot: from the ranked list, and by the strings", async () => {
      for (const index of lower.keys()) {
        await ben.slot("upper", index).click();
        const first = ben.page.locator(".candidate").first();
        await expect(first).toBeVisible();
        const frets = (await first.locator(".fret-string").textContent()) ?? "";
        await first.click();
        await ben.seesGrip("upper", index, frets);
        await ada.seesGrip("upper", index, frets);
      }
      await ben.slot("upper", 3).click();
      const before = (await ben.slot("upper", 3).locator(".fret-string").textContent()) ?? "";
      const string = ben.page.getByRole("slider", { name: "String 1", exact: true });
      await string.focus();
      await string.press("8");
      await expect(ben.slot("upper", 3).locator(".fret-string")).not.toHaveText(before);
      await expect(ben.slot("upper", 3).locator(".fret-string")).toHaveText(/-8$/);
    });

    await test.step("a listener sees everything and can change nothing", async () => {
      const lou = await newPlayer(browser);
      await lou.join(await ada.link("Listener link"), "Lou");
      for (const [index, frets] of lower.entries()) await lou.seesGrip("lower", index, frets);
      await expect(lou.page.getByText("You are listening in")).toBeVisible();
      await expect(lou.page.getByRole("button", { name: /Claim/ })).toHaveCount(0);
      await lou.slot("lower", 0).click();
      await expect(lou.page.getByRole("textbox", { name: "Grip", exact: true })).toHaveCount(0);
      await lou.chords(1).click();
      await expect(lou.page.getByRole("textbox")).toHaveCount(0);
      expect(lou.problems).toEqual([]);
      await lou.context.close();
    });

    await ada.seesSaved();
    await ben.seesSaved();
    const upper = await ben.page.locator(".lane-row[data-lane=upper] .fret-string").allInnerTexts();
    const path = new URL(ada.page.url()).pathname;
    expect([ada.problems, ben.problems]).toEqual([[], []]);
    const cookies = await ada.context.cookies();
    await ada.context.close();
    await ben.context.close();

    await test.step("killed and started again: all is there", async () => {
      await server.kill();
      const { port } = new URL(server.address);
      server = await startTestServer({
        folder: server.folder,
        variables: { HALFLAP_PORT: port },
      });
      const again = await newPlayer(browser);
      await again.context.addCookies(cookies);
      await again.page.goto(`${server.address}${path}`);
      for (const [index, frets] of lower.entries()) await again.seesGrip("lower", index, frets);
      const seen = again.page.locator(".lane-row[data-lane=upper] .fret-string");
      await expect(seen).toHaveText(upper);
      await again.seesSaved();
      await again.context.close();
    });
  } finally {
    await removeTestServer(server);
  }
});
