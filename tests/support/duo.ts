/** Two guitarists on one board, each in a browser profile and with a lane of their own. */
import type { BoardCopy } from "@halflap/board/copy";
import { apiPath } from "@halflap/wire/api";
import type { Browser, Page } from "@playwright/test";
import { expectOk, Visitor } from "./browser-session.ts";
import { newPlayer, type Player } from "./player.ts";

export type Duo = { readonly lower: Player; readonly upper: Player; readonly boardAddress: string };

/** Done with each page before it goes anywhere. */
type Before = (page: Page) => Promise<void>;

/** Makes the board, gives out the lanes, and opens it in two browsers. */
export async function openDuo(
  browser: Browser,
  address: string,
  copy: BoardCopy,
  options: Parameters<Browser["newContext"]>[0] = {},
  before: Before = async () => {},
): Promise<Duo> {
  const ada = new Visitor(address);
  const { board } = await ada.makeBoard("Ada", copy);
  expectOk(await ada.ask("POST", apiPath.lane(board, "lower", "claim")));
  const ben = new Visitor(address);
  await ben.join((await ada.invite(board, "player")).secret, "Ben");
  expectOk(await ben.ask("POST", apiPath.lane(board, "upper", "claim")));
  const boardAddress = `${address}/board/${board}`;
  return {
    lower: await openAs(ada, boardAddress, await opened(browser, options, before)),
    upper: await openAs(ben, boardAddress, await opened(browser, options, before)),
    boardAddress,
  };
}

export type Trio = Duo & { readonly listener: Player };

/** The same, with Cleo who listens. */
export async function openTrio(
  browser: Browser,
  address: string,
  copy: BoardCopy,
  options: Parameters<Browser["newContext"]>[0] = {},
  before: Before = async () => {},
): Promise<Trio> {
  const duo = await openDuo(browser, address, copy, options, before);
  const link = await duo.lower.link("Listener link");
  const listener = await opened(browser, options, before);
  await listener.join(link, "Cleo");
  return { ...duo, listener };
}

async function opened(
  browser: Browser,
  options: Parameters<Browser["newContext"]>[0],
  before: Before,
): Promise<Player> {
  const player = await newPlayer(browser, options);
  await before(player.page);
  return player;
}

/** The player comes as somebody whom the server knows already, to the board. */
async function openAs(visitor: Visitor, boardAddress: string, player: Player): Promise<Player> {
  const [name = "", value = ""] = (visitor.cookie ?? "").split("=");
  await player.context.addCookies([{ name, value, url: visitor.address }]);
  await player.page.goto(boardAddress);
  await player.seesBoard();
  return player;
}
