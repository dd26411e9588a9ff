/** The sheet of the fit as a person finds and handles it. */
import { expect, type Locator, type Page } from "@playwright/test";
import type { Player } from "./player.ts";

/** A busy machine fits for a while. */
export const patience = { timeout: 60_000 };

/** The sheet of the fit. */
export const panel = (page: Page) => page.getByRole("region", { name: "Fit", exact: true });
/** The button that fits. */
export const start = (page: Page) => panel(page).getByRole("button", { name: /^Fit( again)?$/ });
/** The button that lays an answer on the board. */
export const number = (page: Page, which: number) =>
  panel(page).getByRole("button", { name: `Look at answer ${which} on the board` });
/** Cells that show a grip which nobody has taken. */
export const tried = (page: Page, lane: "upper" | "lower") =>
  page.locator(`.lane-row[data-lane="${lane}"] .lane-cell[data-tried]`);
/** A row of the comparison. */
export const row = (page: Page, name: string) => panel(page).getByRole("row", { name });

/** Opens the sheet from the board. */
export async function open(page: Page): Promise<void> {
  await page.getByRole("button", { name: /^Fit\b/ }).click();
  await expect(panel(page)).toBeVisible();
}

/** Presses the button and waits for answers. */
export async function fitted(page: Page): Promise<void> {
  await start(page).click();
  await expect(number(page, 1)).toBeVisible(patience);
}

/** Four bars are fitted sooner than the whole tune. */
export async function introOnly(page: Page): Promise<void> {
  await panel(page).getByText("How", { exact: true }).click();
  await panel(page).getByLabel("Some sections").check();
  const intro = panel(page).getByRole("button", { name: "Intro", exact: true });
  if ((await intro.getAttribute("aria-pressed")) === "false") await intro.click();
  await expect(intro).toHaveAttribute("aria-pressed", "true");
}

/** What stands in all cells of a lane; would-be grips where there are any. */
export function gripsOf(page: Page, lane: "upper" | "lower"): Promise<readonly string[]> {
  return page.locator(`.lane-row[data-lane="${lane}"] .lane-cell .fret-string`).allTextContents();
}

/** Until the lane's grips are these, in chart order. */
export async function seesGrips(
  player: Player,
  lane: "upper" | "lower",
  grips: readonly string[],
): Promise<void> {
  const cells: Locator = player.page.locator(
    `.lane-row[data-lane="${lane}"] .lane-cell .fret-string`,
  );
  await expect(cells).toHaveText([...grips]);
}
