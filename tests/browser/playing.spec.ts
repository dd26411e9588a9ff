/** Strum patterns, fills and marks on the page: drawn, typed, seen across, and left alone. */
import type { LaneId } from "@halflap/board/board";
import { type Browser, expect, type Locator } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { newPlayer, type Player } from "../support/player.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
test.beforeAll(async () => {
  server = await startTestServer();
});
test.afterAll(async () => removeTestServer(server));

/** Four bars of intro and eight of verse; the intro's are the first four strips of a lane. */
async function alone(
  browser: Browser,
  options: Parameters<typeof newPlayer>[1] = {},
): Promise<Player> {
  const ada = await newPlayer(browser, options);
  await ada.makeBoard(server.address, "Ada");
  await ada.claim("lower");
  return ada;
}

async function together(browser: Browser): Promise<{ readonly ada: Player; readonly ben: Player }> {
  const ada = await alone(browser);
  const ben = await newPlayer(browser);
  await ben.join(await ada.link("Player link"), "Ben");
  await ben.claim("upper");
  return { ada, ben };
}

/** Strips count bars in chart order, from 0 over all lines. */
function strip(player: Player, lane: LaneId, bar: number): Locator {
  return player.page.locator(`.lane-row[data-lane="${lane}"] .playing-strip`).nth(bar);
}
const strokes = (player: Player, bar: number) => strip(player, "lower", bar).locator(".step-glyph");
const panel = (player: Player) => player.page.locator(".playing-panel");
const step = (player: Player, name: string) =>
  panel(player).getByRole("button", { name, exact: true });
const typed = (player: Player) => panel(player).getByLabel("Typed", { exact: true });

async function type(player: Player, text: string): Promise<void> {
  await typed(player).fill(text);
  await typed(player).press("Enter");
}

test("a pattern is drawn, typed, varied for a bar, set elsewhere, undone and seen across", async ({
  browser,
}) => {
  const { ada, ben } = await together(browser);
  const { page } = ada;

  await test.step("presses draw it for the section", async () => {
    await strip(ada, "lower", 0).click();
    await step(ada, "Beat 1: nothing new").click();
    await step(ada, "Beat 2 and: nothing new").click();
    await step(ada, "Beat 2 and: down").click();
    await panel(ada).getByRole("button", { name: "Accent" }).click();
    await expect(step(ada, "Beat 2 and: up, accent")).toBeVisible();
    await expect(panel(ada)).toContainText("set for Intro");
    await expect(typed(ada)).toHaveValue("D. .>U .. ..");
    for (const bar of [0, 3]) await expect(strokes(ben, bar)).toHaveCount(2);
    await expect(strokes(ben, 4)).toHaveCount(0);
    await expect(strip(ben, "lower", 0)).toContainText("strokes on 1, 2 and accent");
  });

  await test.step("typing draws it too, and says where it is not understood", async () => {
    await type(ada, "DU ?U");
    await expect(panel(ada)).toContainText("At 4, “?”:");
    await expect(typed(ada)).toHaveValue("DU ?U");
    await type(ada, "D.DU x~U>DU");
    await expect(strokes(ada, 1)).toHaveCount(7);
    await expect(strokes(ben, 1)).toHaveCount(7);
    // Sixteen signs fill the bar with sixteenths.
    await type(ada, "DUDU DUDU DUDU DUDU");
    await expect(panel(ada).getByLabel("A step is")).toHaveValue("12");
    await expect(strokes(ben, 1)).toHaveCount(16);
  });

  await test.step("a bar is varied without the others", async () => {
    await expect(panel(ada)).toContainText("Played in 4 bars");
    await panel(ada).getByRole("button", { name: "Vary for this bar only" }).click();
    await expect(panel(ada)).toContainText("set for this bar");
    await type(ada, "D.D.");
    await expect(strokes(ben, 1)).toHaveCount(16);
    await expect(strokes(ben, 0)).toHaveCount(2);
  });

  await test.step("another section takes it up, and undo takes it back", async () => {
    await strip(ada, "lower", 4).click();
    await expect(panel(ada)).toContainText("No pattern yet");
    await panel(ada).locator(".strum-pick", { hasText: "1 bar" }).click();
    await expect(panel(ada)).toContainText("Not the pattern of this bar.");
    await panel(ada).getByRole("button", { name: "Verse", exact: true }).click();
    for (const bar of [4, 11]) await expect(strokes(ben, bar)).toHaveCount(2);
    await page.keyboard.press("Control+z");
    await expect(strokes(ben, 4)).toHaveCount(0);
    await expect(strokes(ben, 0)).toHaveCount(2);
  });
  expect([...ada.problems, ...ben.problems]).toEqual([]);
});

test("a fill is written by crossings and by typing, moved, deleted and brought back", async ({
  browser,
}) => {
  const { ada, ben } = await together(browser);
  const frets = (player: Player, bar = 1) => strip(player, "lower", bar).locator(".tab-fret");
  const crossing = (start: string) => panel(ada).getByRole("button", { name: start });
  await strip(ada, "lower", 1).click();
  await panel(ada).getByRole("tab", { name: "Fill" }).click();
  await expect(panel(ada)).toContainText("No fill or line in this bar.");
  await panel(ada).getByRole("button", { name: "Add a fill" }).click();

  await test.step("a crossing takes what is typed on it", async () => {
    await crossing("String 2, beat 3: no note").click();
    await ada.page.keyboard.type("1");
    await ada.page.keyboard.type("0");
    await ada.page.keyboard.press("ArrowRight");
    await ada.page.keyboard.type("12h");
    await expect(crossing("String 2, beat 3 and: string 2 fret 12, hammer-on")).toBeFocused();
    await crossing("String 1, beat 4: no note").click();
    await panel(ada).getByRole("button", { name: "fret 8", exact: true }).click();
    await expect(typed(ada)).toHaveValue("3 2:10  3.5 h2:12  4 1:8");
    await expect(frets(ben)).toHaveText(["10", "12", "8"]);
    await expect(strip(ben, "lower", 1)).toContainText("fill on 3: string 2 fret 10");
  });

  await test.step("typing takes its place, double stop and all", async () => {
    await type(ada, "3 2:10 4 2:99");
    await expect(panel(ada)).toContainText("Frets go up to 24.");
    await type(ada, "3 2:10 4 3:10+1:8");
    await expect(frets(ben)).toHaveText(["10", "10", "8"]);
  });

  await test.step("it goes on over the bar line when it lasts longer", async () => {
    await panel(ada).getByLabel("Starts on").selectOption({ label: "4" });
    await panel(ada).getByLabel("Lasts").first().selectOption({ label: "2 beats" });
    await expect(frets(ben, 1)).toHaveText(["10"]);
    await expect(frets(ben, 2)).toHaveText(["10", "8"]);
    await panel(ada).getByRole("button", { name: "We both fill here" }).click();
    await expect(strip(ben, "lower", 1)).toContainText("both fill");
  });

  await test.step("deleting is one step that undo takes back", async () => {
    await panel(ada).getByRole("button", { name: "Delete this fill" }).click();
    await expect(frets(ben, 2)).toHaveCount(0);
    await ada.page.keyboard.press("Control+z");
    await expect(frets(ben, 2)).toHaveText(["10", "8"]);
  });

  await test.step("what is being typed is kept when Escape closes the panel", async () => {
    await typed(ada).fill("4 3:9");
    await typed(ada).press("Escape");
    await expect(panel(ada)).toHaveCount(0);
    await expect(frets(ben)).toHaveText(["9"]);
  });
  expect([...ada.problems, ...ben.problems]).toEqual([]);
});

test("marks of a bar and of a pass; the other’s part is shown and not changed", async ({
  browser,
}) => {
  const { ada, ben } = await together(browser);
  await strip(ada, "lower", 0).click();
  await type(ada, "D.D.D.D.");
  await panel(ada).getByRole("tab", { name: "Bar" }).click();
  await panel(ada).getByRole("button", { name: "Palm mute" }).click();
  await panel(ada).getByRole("radio", { name: "mp", exact: true }).check();
  await panel(ada).getByLabel("Text on the bar").fill("stop on 1");
  await panel(ada).getByLabel("Text on the bar").press("Enter");
  await panel(ada).getByRole("button", { name: "weave" }).click();
  await expect(strip(ben, "lower", 0).locator(".playing-marks")).toHaveText("mpP.M.stop on 1");
  await expect(strip(ben, "upper", 0).locator(".playing-marks")).toHaveText("weave");

  await strip(ben, "lower", 0).click();
  await expect(panel(ben)).toContainText("Ada’s part");
  await expect(panel(ben)).toContainText("set for Intro");
  await expect(typed(ben)).toHaveCount(0);
  await expect(panel(ben).locator(".step-button")).toHaveCount(0);
  await panel(ben).getByRole("tab", { name: "Fill" }).click();
  await expect(panel(ben).getByRole("button", { name: "Add a fill" })).toHaveCount(0);
  await panel(ben).getByRole("tab", { name: "Bar" }).click();
  await expect(panel(ben)).toContainText("rather soft from here");
  await expect(panel(ben).getByRole("button", { name: "Lay out here" })).toHaveCount(0);

  await panel(ada).getByRole("button", { name: "Lay out here" }).click();
  await expect(strokes(ben, 0)).toHaveCount(0);
  await expect(strokes(ben, 1)).toHaveCount(4);
});

test("by keyboard alone: opened, written, turned to the fill, closed", async ({ browser }) => {
  const ada = await alone(browser);
  const { page } = ada;
  await ada.slot("lower", 0).focus();
  await page.keyboard.press("s");
  await expect(panel(ada).getByRole("tab", { name: "Strum" })).toBeFocused();
  await page.keyboard.press("Tab");
  await expect(step(ada, "Beat 1: nothing new")).toBeFocused();
  await page.keyboard.type("d.dux~u>d");
  await expect(typed(ada)).toHaveValue("D. DU x~U >D.");
  await page.keyboard.press("Home");
  await page.keyboard.press("g");
  await expect(step(ada, "Beat 1: down, ghost")).toBeFocused();
  // Back over the way to vary the bar to the tabs.
  for (let steps = 0; steps < 2; steps++) await page.keyboard.press("Shift+Tab");
  await page.keyboard.press("ArrowRight");
  await expect(panel(ada).getByRole("tab", { name: "Fill" })).toBeFocused();
  await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  const crossing = panel(ada).locator('.tab-crossing[tabindex="0"]');
  // A letter of the fill is no command of the board.
  await expect(crossing).toBeFocused();
  await page.keyboard.type("8");
  await page.keyboard.press("ArrowRight");
  await page.keyboard.type("5p");
  await expect(typed(ada)).toHaveValue("3 2:8  3.5 p2:5");
  await page.keyboard.press("Escape");
  await expect(panel(ada)).toHaveCount(0);
  await expect(ada.slot("lower", 0)).toBeFocused();
});

test("on a phone: a thumb draws a stroke and a note, and all of it is large enough", async ({
  browser,
}) => {
  const phone = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };
  const ada = await alone(browser, phone);
  await strip(ada, "lower", 0).tap();
  // The sheet from below leaves the strip in sight.
  const bottom = async (of: Locator) => {
    const box = await of.boundingBox();
    return box === null ? 0 : box.y + box.height;
  };
  const sheet = async () => (await panel(ada).boundingBox())?.y ?? 0;
  await expect
    .poll(async () => (await bottom(strip(ada, "lower", 0))) <= (await sheet()))
    .toBe(true);
  await step(ada, "Beat 1: nothing new").tap();
  await expect(strokes(ada, 0)).toHaveCount(1);
  await panel(ada).getByRole("tab", { name: "Fill" }).tap();
  await panel(ada).getByRole("button", { name: "Add a fill" }).tap();
  await panel(ada).getByRole("button", { name: "String 3, beat 3: no note" }).tap();
  await panel(ada).getByRole("button", { name: "fret 5", exact: true }).tap();
  await expect(strip(ada, "lower", 0).locator(".tab-fret")).toHaveText(["5"]);
  for (const part of ["Strum", "Fill", "Bar"]) {
    await panel(ada).getByRole("tab", { name: part }).tap();
    const small = await panel(ada)
      .locator("button, select, input")
      .evaluateAll((all) =>
        all
          .filter((each) => each.getAttribute("type") !== "radio")
          .filter((each) => each.getBoundingClientRect().height > 0)
          .filter((each) => Math.round(each.getBoundingClientRect().height) < 44)
          .map((each) => each.outerHTML.slice(0, 80)),
      );
    expect(small).toEqual([]);
  }
  const wide = await ada.page.evaluate(() => document.documentElement.scrollWidth);
  expect(wide).toBe(390);
});
