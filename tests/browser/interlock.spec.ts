/** Strum patterns that lock with the other part's: asked for, heard, taken, undone, offered. */
import { demoDraft } from "@halflap/board/demo";
import { expect, type Locator } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { openDuo } from "../support/duo.ts";
import { newPlayer, type Player } from "../support/player.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

let server: TestServer;
test.beforeAll(async () => {
  server = await startTestServer();
});
test.afterAll(async () => removeTestServer(server));

const panel = (player: Player) => player.page.locator(".playing-panel");
const block = (player: Player) => panel(player).locator(".interlock");
const ideas = (player: Player) => block(player).locator(".interlock-idea");
const strip = (player: Player, lane: "upper" | "lower", bar: number): Locator =>
  player.page.locator(`.lane-row[data-lane="${lane}"] .playing-strip`).nth(bar);

/** Opens the panel of a bar and the block in it. */
async function ask(player: Player, lane: "upper" | "lower", heading: string): Promise<void> {
  await strip(player, lane, 0).click();
  await block(player).getByText(heading, { exact: true }).click();
  await expect(ideas(player).first()).toBeVisible();
}

test("a pattern that locks is taken for the section by one press, and undone", async ({
  browser,
}) => {
  const { lower: ada, upper: ben } = await openDuo(browser, server.address, demoDraft());
  const scripts: string[] = [];
  ada.page.on("request", (request) => scripts.push(request.url()));
  const loaded = () => scripts.filter((url) => /ideas-worker/.test(url)).length;

  await test.step("nothing is loaded before it is asked for", async () => {
    await strip(ada, "lower", 0).click();
    await expect(block(ada)).toContainText("Locks with Ben’s strums");
    await expect(ideas(ada)).toHaveCount(0);
    expect(loaded()).toBe(0);
    await block(ada).getByText("Locks with Ben’s strums").click();
    await expect(ideas(ada).first()).toBeVisible();
    expect(loaded()).toBeGreaterThan(0);
  });

  await test.step("each says what it makes, and differs from the others", async () => {
    const names = await ideas(ada).locator(".strum-words").allTextContents();
    expect(names.length).toBeGreaterThan(3);
    expect(new Set(names).size).toBe(names.length);
    await expect(ideas(ada).first()).toContainText("Ben's strokes");
    await expect(ideas(ada).first()).toContainText("every eighth filled");
    await expect(
      ideas(ada)
        .first()
        .getByRole("button", { name: /^Hear it/ }),
    ).toBeVisible();
  });

  await test.step("a key takes it, and both see it in every bar", async () => {
    const first = ideas(ada).first().getByRole("button").first();
    const name = (await first.locator(".strum-words").textContent()) ?? "";
    const strokes = await first.locator(".step-glyph").count();
    const before = await strip(ben, "lower", 0).locator(".step-glyph").count();
    await first.focus();
    await ada.page.keyboard.press("Enter");
    await expect(block(ada).getByRole("status")).toHaveText(`${name} plays in Intro now.`);
    await expect(block(ada).locator("summary")).toBeFocused();
    await expect(panel(ada).locator(".strum-source")).toContainText(`${name} set for Intro`);
    await expect(panel(ada).locator(".strum-pick", { hasText: "4 bars" })).toContainText(name);
    for (const bar of [0, 3]) {
      await expect(strip(ben, "lower", bar).locator(".step-glyph")).toHaveCount(strokes);
    }
    await ada.page.keyboard.press("Control+z");
    for (const bar of [0, 3]) {
      await expect(strip(ben, "lower", bar).locator(".step-glyph")).toHaveCount(before);
    }
    await expect(panel(ada).locator(".strum-source")).toContainText("Steady eighths");
    await expect(panel(ada).locator(".strum-list").first()).not.toContainText(name);
  });
  expect([...ada.problems, ...ben.problems]).toEqual([]);
});

test("for the other's lane a pattern is offered, and a listener only hears it", async ({
  browser,
}) => {
  const { lower: ada, upper: ben } = await openDuo(browser, server.address, demoDraft());
  const link = await ada.link("Listener link");

  await test.step("the other takes what is offered", async () => {
    await ask(ada, "upper", "Locks with your strums");
    await ideas(ada).first().getByRole("button", { name: "Offer it to Ben" }).click();
    await expect(ideas(ada).first()).toContainText("Offered to Ben");
    await expect(ben.page.locator(".proposal")).toContainText("Strum Intro:");
  });

  await test.step("a listener sees and hears, and changes nothing", async () => {
    const cleo = await newPlayer(browser);
    await cleo.join(link, "Cleo");
    await ask(cleo, "upper", "Locks with Ada’s strums");
    await expect(ideas(cleo).first().getByRole("button")).toHaveCount(1);
    await expect(
      ideas(cleo)
        .first()
        .getByRole("button", { name: /^Hear it/ }),
    ).toBeVisible();
    expect(cleo.problems).toEqual([]);
  });
});

test("where every bar keeps a pattern of its own, that is said", async ({ browser }) => {
  const ada = await newPlayer(browser);
  await ada.makeBoard(server.address, "Ada");
  await ada.claim("lower");
  await strip(ada, "lower", 0).click();
  await panel(ada).getByRole("button", { name: "Beat 1: nothing new" }).click();
  const { page } = ada;
  for (const bar of [0, 1, 2]) {
    await strip(ada, "lower", bar).click();
    await panel(ada).getByRole("button", { name: "Vary for this bar only" }).click();
    await expect(panel(ada)).toContainText("set for this bar");
  }
  await strip(ada, "lower", 3).click();
  await panel(ada).getByRole("button", { name: "This bar", exact: true }).click();
  await block(ada).getByText("Locks with the upper lane’s strums").click();
  await expect(block(ada)).toContainText("Nothing to offer");
  await page.keyboard.press("Control+z");
  await expect(ideas(ada).first()).toBeVisible();
});
