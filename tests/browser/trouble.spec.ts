/** What goes wrong for people, and what they are told: nothing typed is lost in any of it. */

import { apiPath } from "@halflap/wire/api";
import { expect } from "@playwright/test";
import { refusalOf, smallCopy, Visitor } from "../support/browser-session.ts";
import { test } from "../support/browser-test.ts";
import { exampleChart, newPlayer, type Player } from "../support/player.ts";
import {
  removeTestServer,
  type StartOptions,
  startTestServer,
  type TestServer,
} from "../support/server.ts";

/** Runs a story against a server of its own; `again` starts it anew on the same store. */
async function withServer(
  options: StartOptions,
  story: (server: TestServer, again: (variables?: object) => Promise<void>) => Promise<void>,
): Promise<void> {
  let server = await startTestServer(options);
  const { port } = new URL(server.address);
  try {
    await story(server, async (variables = {}) => {
      server = await startTestServer({
        folder: server.folder,
        variables: { HALFLAP_PORT: port, ...variables },
      });
    });
  } finally {
    await removeTestServer(server);
  }
}

/** Makes boards, ever smaller ones, until not even the smallest finds room. */
async function fillUp(address: string): Promise<void> {
  const stranger = new Visitor(address);
  for (let size = 2000; size > 0; size = Math.floor(size / 2)) {
    const slots = Array.from({ length: size }, (_, i) => ({ id: `s${i}`, chord: `C ${i}` }));
    const copy = { ...smallCopy(), setAside: { bars: [], slots } };
    for (let boards = 0; boards < 8; boards++) {
      const answer = await stranger.ask("POST", apiPath.boards, { name: "Eve", copy });
      if (answer.status >= 300) {
        expect(refusalOf(answer)).toBe("store-full");
        break;
      }
    }
  }
}

const grip = (player: Player) => player.page.getByRole("textbox", { name: "Grip", exact: true });

test("a wrong chord is named with line, column and what was meant; the text stays", async ({
  browser,
}) => {
  await withServer({}, async (server) => {
    const { page } = await newPlayer(browser);
    await page.goto(server.address);
    const chart = page.getByLabel("The chart, as you would write it in a message");
    const typed = exampleChart.replace("Cm7", "Cq7");
    await chart.fill(typed);
    await expect(page.getByText("Line 4, column 14")).toBeVisible();
    await expect(page.getByText(/Cq7. is no chord I know/)).toBeVisible();
    await expect(page.getByRole("button", { name: "Make the board" })).toBeDisabled();
    await page.reload();
    await expect(chart).toHaveValue(typed);
    await page.getByRole("button", { name: "Use C7", exact: true }).click();
    await expect(chart).toHaveValue(exampleChart.replace("Cm7", "C7"));
    await expect(page.getByRole("button", { name: "Make the board" })).toBeEnabled();
  });
});

test("a file of the wrong kind leaves the chart that was typed", async ({ browser }) => {
  await withServer({}, async (server) => {
    const { page } = await newPlayer(browser);
    await page.goto(server.address);
    const chart = page.getByLabel("The chart, as you would write it in a message");
    await chart.fill(exampleChart);
    const input = page.locator("input[type=file]");
    const picture = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 1, 2, 3]);
    await input.setInputFiles({ name: "song.png", mimeType: "image/png", buffer: picture });
    await expect(page.getByRole("alert").filter({ hasText: "song.png" })).toBeVisible();
    const broken = Buffer.from('{"format":"halflap-board","version":99}');
    await input.setInputFiles({ name: "a.json", mimeType: "application/json", buffer: broken });
    await expect(page.getByRole("alert").filter({ hasText: /a\.json.*version/ })).toBeVisible();
    await expect(chart).toHaveValue(exampleChart);
  });
});

test("a wrong grip, and a fret that the neck lacks, are named and stay typed", async ({
  browser,
}) => {
  await withServer({}, async (server) => {
    const ada = await newPlayer(browser);
    await ada.makeBoard(server.address, "Ada");
    await ada.claim("lower");
    await ada.slot("lower", 0).click();
    const words = ada.page.locator("#grip-problem");
    for (const [typed, said] of [
      ["x-x-3-2", "six strings"],
      ["x-x-3-2-q-x", "neither a fret nor x"],
      ["x-x-3-2-40-x", "no such fret"],
      ["x-x-x-x-x-x", "lay out"],
    ] as const) {
      await grip(ada).fill(typed);
      await grip(ada).press("Enter");
      await expect(words).toContainText(said);
      await expect(grip(ada)).toHaveValue(typed);
    }
    await expect(ada.slot("lower", 0).locator(".fret-string")).toHaveCount(0);
  });
});

test("a revoked link says so; of two who claim a lane at once one has it", async ({ browser }) => {
  await withServer({}, async (server) => {
    const ada = await newPlayer(browser);
    await ada.makeBoard(server.address, "Ada");
    const link = await ada.link("Player link");
    const ben = await newPlayer(browser);
    await ben.join(link, "Ben");
    const cy = await newPlayer(browser);
    await cy.join(link, "Cy");

    const claims = [ben, cy].map(async ({ page }) => {
      const button = page.getByRole("button", { name: "Claim the upper lane" }).first();
      await button.click({ timeout: 3_000 });
    });
    await Promise.allSettled(claims);
    for (const { page } of [ada, ben, cy]) {
      const lane = page.locator('.lane-row[data-lane="upper"]').first();
      await expect(lane).not.toHaveAttribute("data-free", "");
    }
    const owners = await Promise.all(
      [ben, cy].map(async (player) => (await player.row("upper").textContent()) ?? ""),
    );
    expect(owners.filter((words) => words.includes("Your part"))).toHaveLength(1);

    await ada.page.getByRole("button", { name: "Share", exact: true }).click();
    await ada.page.getByRole("button", { name: "Revoke" }).click();
    await expect(ada.page.getByRole("dialog")).toContainText("revoked");
    const dee = await newPlayer(browser);
    await dee.page.goto(link);
    await dee.page.getByLabel("Your name, as the others will see it").fill("Dee");
    await dee.page.getByRole("button", { name: "Come in" }).click();
    await expect(dee.page.getByRole("alert")).toContainText(/taken back.* new one/);
    await expect(dee.page.getByLabel("Your name, as the others will see it")).toHaveValue("Dee");
  });
});

test("while the server is away edits are kept here, through a reload, and arrive later", async ({
  browser,
}) => {
  await withServer({}, async (server, again) => {
    const ada = await newPlayer(browser);
    await ada.makeBoard(server.address, "Ada");
    await ada.claim("lower");
    await ada.typeGrip("lower", 0, "x-1-3-0-3-x");
    await ada.seesSaved();
    await ada.isKept();
    await server.kill();
    await expect(ada.state()).toHaveAttribute("data-state", "offline");
    await ada.typeGrip("lower", 1, "3-2-0-0-0-1");
    await expect(ada.state()).toContainText("1 change kept here");
    await ada.page.reload();
    await ada.seesGrip("lower", 1, "3-2-0-0-0-1");
    await expect(ada.state()).toContainText("1 change kept here");
    await again();
    await ada.seesSaved();
    const other = await newPlayer(browser);
    await other.context.addCookies(await ada.context.cookies());
    await other.page.goto(ada.page.url());
    await other.seesGrip("lower", 1, "3-2-0-0-0-1");
  });
});

test("a full disk is said, and the edits stay in the page until there is room", async ({
  browser,
}) => {
  await withServer({ variables: { HALFLAP_STORE_MAX_PAGES: "48" } }, async (server, again) => {
    const ada = await newPlayer(browser);
    await ada.makeBoard(server.address, "Ada");
    await ada.claim("lower");
    await fillUp(server.address);
    for (let index = 0; index < 14; index++) {
      if ((await ada.state().getAttribute("data-state")) === "store-full") break;
      await ada.typeGrip("lower", index, "x-1-3-0-3-x");
    }
    await expect(ada.state()).toHaveAttribute("data-state", "store-full");
    await expect(ada.page.getByText("The server’s disk is full.")).toBeVisible();
    await ada.typeGrip("lower", 2, "x-3-5-3-4-3");
    await expect(ada.state()).toHaveAttribute("data-state", "store-full");
    await ada.seesGrip("lower", 2, "x-3-5-3-4-3");
    await server.stop();
    await again();
    await ada.seesSaved();
    const other = await newPlayer(browser);
    await other.context.addCookies(await ada.context.cookies());
    await other.page.goto(ada.page.url());
    await other.seesGrip("lower", 2, "x-3-5-3-4-3");
  });
});

test("a lane that was handed on while its owner was away: the change is refused, and kept", async ({
  browser,
}) => {
  await withServer({}, async (server) => {
    const ada = await newPlayer(browser);
    await ada.makeBoard(server.address, "Ada");
    const ben = await newPlayer(browser);
    await ben.join(await ada.link("Player link"), "Ben");
    await ben.claim("upper");
    await ben.typeGrip("upper", 0, "x-x-x-7-6-6");
    await ben.seesSaved();
    await ben.context.setOffline(true);
    await expect(ben.state()).toHaveAttribute("data-state", "offline");
    await ben.typeGrip("upper", 1, "x-x-x-7-8-7");
    await ada.page.getByRole("button", { name: "Share", exact: true }).click();
    await ada.page.getByLabel("Upper lane: Hand over to…").selectOption({ label: "Ada" });
    await ada.page.getByRole("dialog").getByRole("button", { name: "Close" }).click();
    await expect(ada.row("upper")).toContainText("Your part");
    await ben.context.setOffline(false);
    await expect(ben.page.getByText("A change to the upper lane was not taken")).toBeVisible();
    await ben.seesGrip("upper", 0, "x-x-x-7-6-6");
    await expect(ben.slot("upper", 1).locator(".fret-string")).toHaveCount(0);
    await expect(ada.slot("upper", 1).locator(".fret-string")).toHaveCount(0);
    const download = ben.page.waitForEvent("download");
    await ben.page.getByRole("button", { name: "Take my copy" }).first().click();
    const stream = await (await download).createReadStream();
    let text = "";
    for await (const chunk of stream) text += String(chunk);
    expect(text).toContain("x-x-x-7-8-7");
  });
});
