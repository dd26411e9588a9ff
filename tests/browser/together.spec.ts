/**
 * Everybody plays the same: started by one, joined by a press, late or not, followed in everything,
 * and kept together over lost lines. What is compared are bar starts by the clock that all pages
 * of this machine share, mapped from each page's own audio clock (`support/heard-bars.ts`).
 */
import { demoSolution } from "@halflap/board/demo";
import { type Browser, expect, type Page } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { openTrio, type Trio } from "../support/duo.ts";
import { apart, comingBars, writeBarsDown } from "../support/heard-bars.ts";
import type { Player } from "../support/player.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

/** Three pages that render sound at once take their time on a small machine. */
test.describe.configure({ timeout: 150_000 });

let server: TestServer;
test.beforeAll(async () => {
  server = await startTestServer();
});
test.afterAll(async () => removeTestServer(server));

/** What the band may be apart, in ms: a twentieth of a sixteenth at a brisk tempo. */
const apartMax = 10;

const slat = ({ page }: Player) => page.getByRole("region", { name: "Listening" });
const button = (player: Player, name: string) =>
  slat(player).getByRole("button", { name, exact: true });
const strip = (player: Player) => slat(player).locator(".together");
const place = (player: Player) => slat(player).locator(".listen-place");
const tempo = (player: Player) => slat(player).getByRole("slider", { name: "Tempo" });

function openDemo(browser: Browser, address = server.address): Promise<Trio> {
  const options = { reducedMotion: "reduce" } as const;
  return openTrio(browser, address, demoSolution(), options, writeBarsDown);
}

/** As fast as it goes, and no count-in: what is waited for comes sooner. */
async function hurry(player: Player): Promise<void> {
  await tempo(player).fill("150");
  await slat(player).getByRole("button", { name: /^More/ }).click();
  await slat(player).getByLabel("Count in first").uncheck();
  await slat(player)
    .getByRole("button", { name: /^Close/ })
    .click();
}

async function expectTogether(one: Player, other: Player): Promise<void> {
  await expect
    .poll(async () => (await apart(one.page, other.page)) ?? Number.POSITIVE_INFINITY, {
      timeout: 20_000,
    })
    .toBeLessThan(apartMax);
}

async function expectPlaying(player: Player): Promise<void> {
  await expect(place(player)).toHaveText(/^Bar \d+/);
  await expect.poll(async () => (await comingBars(player.page, 6_000)).length).toBeGreaterThan(0);
}

/** Looked for whenever the page is drawn: a bar is over soon. */
async function comesTo({ page }: Player, words: string): Promise<void> {
  await page.waitForFunction(
    (start) => document.querySelector(".listen-place")?.textContent?.startsWith(start),
    words,
  );
}

const loadedSound = (page: Page) =>
  page.evaluate(() =>
    performance
      .getEntriesByType("resource")
      .map(({ name }) => name)
      .filter((name) => /sound-player|player-worklet|conductor-worker/.test(name)),
  );

test("one starts, the others are asked, and all of them start the same bars together", async ({
  browser,
}) => {
  const { lower, upper, listener } = await openDemo(browser);
  await hurry(lower);
  await button(lower, "Play for everybody").click();
  await expectPlaying(lower);
  await expect(strip(lower)).toContainText("Nobody else listens along yet.");

  await test.step("nothing sounds, nor is loaded, where nobody pressed", async () => {
    await expect(strip(upper)).toHaveText(/^Ada is playing: bar \d+, (Intro|Verse)/);
    expect(await loadedSound(upper.page)).toEqual([]);
    await expect(upper.page.locator(".heard-bar")).toHaveCount(0);
  });

  await test.step("with one press another falls in where it is, at the same tempo", async () => {
    await button(upper, "Hear it too").press("Enter");
    await expectPlaying(upper);
    await expect(tempo(upper)).toHaveAttribute("aria-valuetext", /^150 %/);
    await expectTogether(lower, upper);
    await expect(strip(lower)).toHaveText(/^Together with Ben, within \d+ ms/);
    await expect(strip(upper)).toHaveText(/^Together with Ada, within \d+ ms/);
  });

  await test.step("a listener comes late, and is together with both", async () => {
    await button(listener, "Hear it too").click();
    await expectTogether(lower, listener);
    await expectTogether(upper, listener);
    await expect(strip(listener)).toHaveText(/^Together with Ada and Ben|^Together with Ben and/);
  });

  await test.step("who drops out is asked again, and the others go on", async () => {
    await button(upper, "Stop only here").click();
    await expect(strip(upper)).toContainText("Ada is playing");
    await expect(place(upper)).toHaveText(/^From bar/);
    await expectPlaying(lower);
    await expect(strip(lower)).toHaveText(/^Together with Cleo, within/);
  });
  for (const { problems } of [lower, upper, listener]) expect(problems).toEqual([]);
});

test("tempo, loop and place are followed; a stop stops all; the next start needs no press", async ({
  browser,
}) => {
  const { lower, upper, listener } = await openDemo(browser);
  await hurry(lower);
  await hurry(upper);
  await button(lower, "Play for everybody").click();
  await button(upper, "Hear it too").click();
  await button(listener, "Hear it too").click();
  await expectTogether(lower, listener);

  await test.step("the other sets the tempo for all, from a bar line on", async () => {
    await tempo(upper).fill("120");
    await expect(tempo(lower)).toHaveAttribute("aria-valuetext", /^120 %/);
    const barMs = (4 * 60_000) / (104 * 1.2);
    for (const player of [lower, upper, listener]) {
      await expect
        .poll(async () => {
          const [one, two] = await comingBars(player.page, 6_000);
          return one && two ? Math.round(two.atMs - one.atMs) : 0;
        })
        .toBe(Math.round(barMs));
    }
    await expectTogether(lower, upper);
  });

  await test.step("a listener lets the verse go round for all", async () => {
    await slat(listener).getByLabel("Round and round").selectOption({ label: "Verse" });
    for (const player of [lower, upper]) {
      await expect(slat(player).getByLabel("Round and round")).toHaveValue(/^section /);
    }
    await expectTogether(lower, listener);
    await expectTogether(upper, listener);
  });

  await test.step("one goes to another bar, and all do", async () => {
    await lower.page.locator(".chord-cell").nth(10).focus();
    const arrivals = [lower, upper, listener].map((player) => comesTo(player, "Bar 11, Verse"));
    await button(lower, "Go to bar 11").click();
    await Promise.all(arrivals);
    await expectTogether(lower, listener);
  });

  await test.step("the board’s own tempo is changed while all play", async () => {
    await lower.page.getByRole("button", { name: /^Key, meter, tempo and feel/ }).click();
    const field = lower.page.getByLabel("Tempo, beats a minute");
    await field.fill("150");
    await field.press("Enter");
    await lower.page.keyboard.press("Escape");
    for (const player of [lower, upper, listener]) {
      await expect
        .poll(async () => {
          const [one, two] = await comingBars(player.page, 6_000);
          return one && two ? Math.round(two.atMs - one.atMs) : 0;
        })
        .toBe(Math.round((4 * 60_000) / (150 * 1.2)));
    }
    await expectTogether(lower, upper);
    await expectTogether(lower, listener);
  });

  await test.step("a listener stops it for all", async () => {
    await button(listener, "Stop for all").click();
    for (const player of [lower, upper, listener]) {
      await expect(button(player, "Play")).toBeVisible();
      await expect(player.page.locator(".heard-bar")).toHaveCount(0);
      await expect(strip(player)).toHaveCount(0);
    }
  });

  await test.step("and another starts it anew: whoever was along is along", async () => {
    await button(upper, "Play for everybody").click();
    await expectTogether(lower, upper);
    await expectTogether(upper, listener);
  });
  for (const { problems } of [lower, upper, listener]) expect(problems).toEqual([]);
});

test("who loses the line plays on alone and falls in again, also to a new server", async ({
  browser,
}) => {
  let own = await startTestServer();
  try {
    const { lower, upper } = await openDemo(browser, own.address);
    await hurry(lower);
    await slat(lower).getByLabel("Round and round").selectOption({ label: "Verse" });
    await button(lower, "Play for everybody").click();
    await button(upper, "Hear it too").click();
    await expectTogether(lower, upper);

    await test.step("one line is lost", async () => {
      await upper.context.setOffline(true);
      await expect(strip(upper)).toContainText("you play on alone");
      await expectPlaying(upper);
      await tempo(lower).fill("130");
      await expect(tempo(lower)).toHaveAttribute("aria-valuetext", /^130 %/);
      await upper.context.setOffline(false);
      await expect(strip(upper)).toHaveText(/^Together with Ada/);
      await expectTogether(lower, upper);
      await expect(tempo(upper)).toHaveAttribute("aria-valuetext", /^130 %/);
    });

    await test.step("the server is killed and started again", async () => {
      const { port } = new URL(own.address);
      await own.kill();
      await expect(strip(lower)).toContainText("you play on alone");
      await expect(strip(upper)).toContainText("you play on alone");
      await expectPlaying(lower);
      own = await startTestServer({ folder: own.folder, variables: { HALFLAP_PORT: port } });
      await expect(strip(lower)).toHaveText(/^Together with Ben/, { timeout: 20_000 });
      await expect(strip(upper)).toHaveText(/^Together with Ada/, { timeout: 20_000 });
      await expectTogether(lower, upper);
    });

    await test.step("and it can be stopped for all again", async () => {
      await button(upper, "Stop for all").click();
      await expect(button(lower, "Play")).toBeVisible();
    });
  } finally {
    await removeTestServer(own);
  }
});

test("a sound shifted by hand comes later by just that, and stays shifted", async ({ browser }) => {
  const { lower, upper } = await openDemo(browser);
  await hurry(lower);
  await button(lower, "Play for everybody").click();
  await button(upper, "Hear it too").click();
  await expectTogether(lower, upper);
  await slat(upper).getByRole("button", { name: /^More/ }).click();
  const shift = slat(upper).getByLabel("Shift my sound");
  await shift.fill("9000");
  await shift.press("Enter");
  await expect(shift).toHaveValue("400");
  await shift.fill("35");
  await shift.press("Enter");
  await expect
    .poll(async () => Math.abs(((await apart(lower.page, upper.page)) ?? 0) - 35), {
      timeout: 20_000,
    })
    .toBeLessThan(apartMax);
  await upper.page.reload();
  await upper.seesBoard();
  await slat(upper).getByRole("button", { name: /^More/ }).click();
  await expect(shift).toHaveValue("35");
});

test("on a phone it fits, and is large enough for a thumb", async ({ browser }) => {
  const phone = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };
  const { lower, listener } = await openTrio(browser, server.address, demoSolution(), phone);
  const expectFits = async ({ page }: Player) => {
    const small = await page
      .locator(".together button:visible, .listen-quick button:visible")
      .evaluateAll((all) =>
        all
          .filter((each) => Math.round(each.getBoundingClientRect().height) < 44)
          .map((each) => each.outerHTML.slice(0, 80)),
      );
    expect(small).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
  };
  await slat(lower).getByRole("button", { name: /^More/ }).tap();
  await expectFits(lower);
  await button(lower, "Play for everybody").tap();
  await expect(strip(listener)).toContainText("Ada is playing");
  await expectFits(listener);
  await button(listener, "Hear it too").tap();
  await expect(strip(listener)).toContainText("Together with Ada");
  await expectFits(listener);
});
