/** Who is shown to whom, through the stock client. */
import type { Bandmate } from "../support/band.ts";
import { seeded } from "../support/seeded.ts";
import { StockClient } from "../support/stock-client.ts";
import { passed, Scene, tickMs, ticksMax } from "./scene.ts";
import type { Stage } from "./stage.ts";

/** A page of somebody's at a node, which says that they are there. */
export async function present(scene: Scene, node: number, who: Bandmate): Promise<StockClient> {
  const client = await StockClient.of(scene.at(node, who), scene.band.board, "board");
  client.provider.awareness.setLocalState({ member: who.me.id, name: who.me.name });
  return client;
}

/** Resolves when somebody is shown to another, or is not. */
export function shows(
  { provider }: StockClient,
  { doc }: StockClient,
  isThere: boolean,
): Promise<void> {
  const { awareness } = provider;
  return new Promise((resolve) => {
    const look = () => {
      if (awareness.getStates().has(doc.clientID) !== isThere) return;
      awareness.off("change", look);
      resolve();
    };
    awareness.on("change", look);
    look();
  });
}

/** In ticks from the death of a node until somebody who was there is shown no more. */
export type Gone = {
  /** To a page at another node that saw them. */
  readonly toPage: number | undefined;
  /** To a page that came there nearly half a minute after the death. */
  readonly toNewcomer: number | undefined;
};

const comesAt = 250;

/** Kills a node, and waits until whoever was there is taken for gone at the others. */
export async function goneAfterDeath(stage: Stage): Promise<Gone> {
  const scene = await Scene.open(stage, seeded(1));
  const { leader, player, listener } = scene.band;
  const [ada, ben] = [await present(scene, 0, leader), await present(scene, 1, player)];
  await shows(ben, ada, true);
  await stage.node(0).kill();
  ada.close();
  const isGone = ({ provider }: StockClient) =>
    !provider.awareness.getStates().has(ada.doc.clientID);
  const seenBy: Record<"page" | "newcomer", number | undefined> = {
    page: undefined,
    newcomer: undefined,
  };
  let cleo: StockClient | undefined;
  for (let tick = 0; tick < ticksMax; tick += 1) {
    if (tick === comesAt) cleo = await present(scene, 1, listener);
    if (isGone(ben)) seenBy.page ??= tick;
    if (cleo !== undefined && isGone(cleo)) seenBy.newcomer ??= tick;
    if (seenBy.page !== undefined && seenBy.newcomer !== undefined) break;
    await passed(tickMs);
  }
  for (const client of [ben, cleo]) client?.close();
  await stage.node(0).startAgain();
  await scene.close();
  return { toPage: seenBy.page, toNewcomer: seenBy.newcomer };
}
