/** Who is shown to whom, through the stock client. */
import type { Bandmate } from "../support/band.ts";
import { StockClient } from "../support/stock-client.ts";
import type { Scene } from "./scene.ts";

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
