/** Takes as people record and find them on the page. */
import { apiPath, type BoardId, type TakeCard, type TakesAnswer } from "@halflap/wire/api";
import { expect, type Page } from "@playwright/test";
import { chromiumLaunch } from "./chromium.ts";

/** A browser whose microphone beeps twice a second or so, in place of the machine's own. */
export const beepingMicrophone = {
  ...chromiumLaunch,
  args: [...(chromiumLaunch.args ?? []), "--use-fake-device-for-media-stream"],
};
/** What is recorded lasts as long as it lasts, and is heard again as long. */
export const takesTimeout = 180_000;

/** The slat from which the board is played. */
export const slat = (page: Page) => page.getByRole("region", { name: "Listening" });
/** A button in it. */
export const button = (page: Page, name: string | RegExp) =>
  slat(page).getByRole("button", { name, exact: true });
/** The takes in its drawer. */
export const takes = (page: Page) => slat(page).getByRole("group", { name: "Takes", exact: true });
/** Each take in the list, sent or not. */
export const entry = (page: Page) => takes(page).locator(".take");
/** The sign of takes that begin in a bar, counted from 1. */
export const sign = (page: Page, bar: number) =>
  page
    .locator(".chord-cell")
    .nth(bar - 1)
    .locator(".take-sign");

/** Opens the drawer. */
export async function openTakes(page: Page): Promise<void> {
  await slat(page).getByRole("button", { name: /^More/ }).click();
  await expect(takes(page)).toBeVisible();
}

/** Bars 2 and 3, half as fast again: what is waited for comes sooner. */
export async function record(page: Page): Promise<void> {
  await slat(page).getByRole("slider", { name: "Tempo" }).fill("150");
  for (const [label, bar] of [
    ["From bar", "2"],
    ["to bar", "3"],
  ] as const) {
    const field = takes(page).getByLabel(label, { exact: true });
    await field.fill(bar);
    await field.press("Enter");
  }
  await takes(page).getByRole("button", { name: "Record", exact: true }).click();
  await expect(takes(page)).toContainText("Counting in");
  await expect(takes(page)).toContainText("Recording: 1 s");
  const meter = takes(page).getByRole("meter", { name: "How loud it comes in" });
  await expect
    .poll(async () => Number(await meter.getAttribute("aria-valuenow")))
    .toBeGreaterThan(10);
  await expect(takes(page).getByRole("button", { name: "Hear it with the band" })).toBeVisible();
}

/** Names a draft and keeps it. */
export async function keep(page: Page, name: string): Promise<void> {
  await takes(page).getByLabel("Name of the take").fill(name);
  await takes(page).getByRole("button", { name: "Keep it" }).click();
}

/** The one take of the board that is open, as the server has it. */
export async function onlyTake(page: Page): Promise<TakeCard> {
  const board = new URL(page.url()).pathname.split("/").at(-1) as BoardId;
  const answer: TakesAnswer = await page.evaluate(
    async (path) => (await fetch(path)).json(),
    apiPath.takes(board),
  );
  const [take] = answer.takes;
  if (take === undefined) throw new Error("no take is on the server");
  return take;
}
