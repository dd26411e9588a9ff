/** Ada leads, Ben plays, Cleo listens: one board with one of each, on one server. */

import type { LaneId } from "@halflap/board/board";
import { apiPath, type BoardId, type LanesAnswer, type Me } from "@halflap/wire/api";
import { expectOk, Visitor } from "./browser-session.ts";

export type Bandmate = { readonly visitor: Visitor; readonly me: Me };

export type Band = {
  readonly board: BoardId;
  readonly leader: Bandmate;
  readonly player: Bandmate;
  readonly listener: Bandmate;
};

/** Makes the board and brings everybody in. */
export async function makeBand(address: string): Promise<Band> {
  const leader = new Visitor(address);
  const { board, me } = await leader.makeBoard("Ada");
  const join = async (role: "player" | "listener", name: string): Promise<Bandmate> => {
    const { secret } = await leader.invite(board, role);
    const visitor = new Visitor(address);
    return { visitor, me: (await visitor.join(secret, name)).me };
  };
  return {
    board,
    leader: { visitor: leader, me },
    player: await join("player", "Ben"),
    listener: await join("listener", "Cleo"),
  };
}

/** Claims a lane that must be free. */
export async function claimLane(
  { visitor }: Bandmate,
  board: BoardId,
  lane: LaneId,
): Promise<LanesAnswer> {
  const answer = await visitor.ask("POST", apiPath.lane(board, lane, "claim"));
  return expectOk(answer) as LanesAnswer;
}
