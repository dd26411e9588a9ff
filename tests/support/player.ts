/** A person at a browser: what guitarists do on the page, by the words and shapes that they see. */

import type { LaneId } from "@halflap/board/board";
import {
  type Browser,
  type BrowserContext,
  expect,
  type Locator,
  type Page,
} from "@playwright/test";

export const exampleChart = `Bb, 126, swing

Intro
| Bb6 | G7 | Cm7 | F7 |

Verse
| Bb6 | D7 | Gm7 . C7 . | % |
| Eb6 | Edim7 | Bb/F | F7 |
`;

/** One profile of its own: cookies, storage and all. */
export class Player {
  readonly context: BrowserContext;
  readonly page: Page;
  readonly problems: string[] = [];

  constructor(context: BrowserContext, page: Page) {
    this.context = context;
    this.page = page;
    page.on("pageerror", (error) => this.problems.push(error.message));
    page.on("console", (message) => {
      if (/Content Security Policy/.test(message.text())) this.problems.push(message.text());
    });
  }

  /** Writes the chart on the door and opens the board. */
  async makeBoard(address: string, name: string, chart: string = exampleChart): Promise<void> {
    await this.page.goto(address);
    await this.page.getByLabel("The chart, as you would write it in a message").fill(chart);
    await this.page.getByLabel("Your name, as the others will see it").fill(name);
    await this.page.getByRole("button", { name: "Make the board" }).click();
    await this.seesBoard();
  }

  /** A full board takes its time to open; a bench has no patience of its own set. */
  async seesBoard(): Promise<void> {
    await expect(this.page.locator(".lane-row").first()).toBeVisible({ timeout: 20_000 });
  }

  /** Makes a link and gives its address. */
  async link(role: "Player link" | "Listener link"): Promise<string> {
    await this.page.getByRole("button", { name: "Share", exact: true }).click();
    await this.page.getByRole("button", { name: `Make a link: ${role}` }).click();
    const field = this.page.getByLabel("Shown this once. Send it to them:");
    await expect(field).toHaveValue(/\/join#/);
    const address = await field.inputValue();
    await this.page.getByRole("dialog").getByRole("button", { name: "Close" }).click();
    return address;
  }

  /** Opens a link and comes in under a name. */
  async join(link: string, name: string): Promise<void> {
    await this.page.goto(link);
    await this.page.getByLabel("Your name, as the others will see it").fill(name);
    await this.page.getByRole("button", { name: "Come in" }).click();
    await this.seesBoard();
  }

  async claim(lane: LaneId): Promise<void> {
    await this.page
      .getByRole("button", { name: `Claim the ${lane} lane` })
      .first()
      .click();
    await expect(this.row(lane)).toContainText("Your part");
  }

  row(lane: LaneId): Locator {
    return this.page.locator(`.lane-row[data-lane="${lane}"]`).first();
  }

  /** The slots of a lane in chart order, counted from 0 over all lines. */
  slot(lane: LaneId, index: number): Locator {
    return this.page.locator(`.lane-row[data-lane="${lane}"] .lane-cell`).nth(index);
  }

  chords(bar: number): Locator {
    return this.page.locator(".chord-cell").nth(bar - 1);
  }

  /** Types a grip into a slot of the own lane. */
  async typeGrip(lane: LaneId, index: number, frets: string): Promise<void> {
    await this.slot(lane, index).click();
    const field = this.page.getByRole("textbox", { name: "Grip", exact: true });
    await field.fill(frets);
    await field.press("Enter");
    await this.seesGrip(lane, index, frets);
  }

  async seesGrip(lane: LaneId, index: number, frets: string): Promise<void> {
    await expect(this.slot(lane, index).locator(".fret-string")).toHaveText(frets);
  }

  state(): Locator {
    return this.page.locator(".state-line");
  }

  async seesSaved(): Promise<void> {
    await expect(this.state()).toHaveAttribute("data-state", "saved");
  }

  /** The page is kept by the browser now, and opens without the server. */
  async isKept(): Promise<void> {
    await this.page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  }

  finding(words: string | RegExp): Locator {
    return this.page.locator(".finding", { hasText: words });
  }
}

/** A new profile with an empty page. */
export async function newPlayer(
  browser: Browser,
  options: Parameters<Browser["newContext"]>[0] = {},
): Promise<Player> {
  const context = await browser.newContext(options);
  return new Player(context, await context.newPage());
}
