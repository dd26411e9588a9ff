/**
 * Pages at two nodes over one PostgreSQL and one Redis play together as pages of one do, and go on
 * when a node or Redis is gone. What is compared are bar starts, as in `together.spec.ts`.
 */
import { demoSolution } from "@halflap/board/demo";
import { expect } from "@playwright/test";
import { test } from "../support/browser-test.ts";
import { openDuo } from "../support/duo.ts";
import { apart, writeBarsDown } from "../support/heard-bars.ts";
import type { Player } from "../support/player.ts";
import { startPostgres, type TestPostgres } from "../support/postgres.ts";
import { startRedis, type TestRedis } from "../support/redis.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";

test.describe.configure({ timeout: 180_000 });

let postgres: TestPostgres;
let redis: TestRedis;
let variables: Record<string, string>;
let here: TestServer;
let there: TestServer;

test.beforeAll(async () => {
  postgres = await startPostgres();
  redis = await startRedis();
  variables = {
    HALFLAP_DATABASE_URL: postgres.makeDatabase("boards"),
    HALFLAP_REDIS_URL: redis.address,
  };
  here = await startTestServer({ variables });
  there = await startTestServer({ variables });
});

test.afterAll(async () => {
  await Promise.all([here, there].map(removeTestServer));
  await Promise.all([postgres.remove(), redis.kill()]);
});

/** What the band may be apart, in ms, as for pages of one node. */
const apartMax = 10;

const slat = ({ page }: Player) => page.getByRole("region", { name: "Listening" });
const button = (player: Player, name: string) =>
  slat(player).getByRole("button", { name, exact: true });
const strip = (player: Player) => slat(player).locator(".together");
const tempo = (player: Player) => slat(player).getByRole("slider", { name: "Tempo" });

async function expectTogether(one: Player, other: Player): Promise<void> {
  await expect
    .poll(async () => (await apart(one.page, other.page)) ?? Number.POSITIVE_INFINITY, {
      timeout: 40_000,
    })
    .toBeLessThan(apartMax);
}

test("pages of two nodes play together, without Redis on their own, and without a node", async ({
  browser,
}) => {
  const options = { reducedMotion: "reduce" } as const;
  const duo = await openDuo(browser, here.address, demoSolution(), options, writeBarsDown);
  const { lower, upper, boardAddress } = duo;
  await upper.page.goto(boardAddress.replace(here.address, there.address));
  await upper.seesBoard();
  await tempo(lower).fill("150");
  await slat(lower).getByLabel("Round and round").selectOption({ label: "Verse" });
  await button(lower, "Play for everybody").click();
  await button(upper, "Hear it too").click();

  await test.step("one moment for both, and what one turns both hear", async () => {
    await expectTogether(lower, upper);
    await expect(strip(lower)).toHaveText(/^Together with Ben, within \d+ ms/);
    await expect(strip(upper)).toHaveText(/^Together with Ada, within \d+ ms/);
    await tempo(upper).fill("120");
    await expect(tempo(lower)).toHaveAttribute("aria-valuetext", /^120 %/);
    await expectTogether(lower, upper);
  });

  await test.step("Redis goes: both play on and say so; back, they fall in", async () => {
    await redis.kill();
    for (const player of [lower, upper]) {
      await expect(strip(player)).toContainText("Part of the line is lost", { timeout: 60_000 });
    }
    await expectTogether(lower, upper);
    await tempo(lower).fill("130");
    await expect(tempo(lower)).toHaveAttribute("aria-valuetext", /^130 %/);
    await redis.start();
    await expect(tempo(upper)).toHaveAttribute("aria-valuetext", /^130 %/);
    await expectTogether(lower, upper);
  });

  await test.step("a node dies: its page plays on alone, and comes again", async () => {
    await there.kill();
    await expect(strip(upper)).toContainText("you play on alone");
    await expect(strip(lower)).not.toContainText("you play on alone");
    const { port } = new URL(there.address);
    there = await startTestServer({ variables: { ...variables, HALFLAP_PORT: port } });
    await expect(strip(upper)).toHaveText(/^Together with Ada/, { timeout: 60_000 });
    await expectTogether(lower, upper);
    await button(upper, "Stop for all").click();
    await expect(button(lower, "Play")).toBeVisible();
  });
  for (const { problems } of [lower, upper]) expect(problems).toEqual([]);
});
