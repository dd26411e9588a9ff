/** Routes for lanes: claim a free one, release one's own, hand one over. */
import type { LaneId } from "@halflap/board/board";
import type { BoardId, LanesAnswer } from "@halflap/wire/api";
import { bodyBytesMax } from "@halflap/wire/limits";
import { type LaneOwners, mayTake } from "@halflap/wire/permissions";
import { type Context, Hono } from "hono";
import type { Standing } from "../store/people-port.ts";
import { boardNotFound, Refused } from "./answers.ts";
import { fieldsOf, laneOf, memberIn } from "./body.ts";
import { limitedTo } from "./body-limit.ts";
import type { CountChange } from "./change-rates.ts";
import { memberUnknown } from "./members.ts";
import type { RoutePorts } from "./ports.ts";

/** /boards/:board/lanes/:lane/claim, /release and /hand-over */
export function laneRoutes(ports: RoutePorts, count: CountChange): Hono {
  const { people, sessions } = ports;
  const routes = new Hono();

  routes.post("/boards/:board/lanes/:lane/claim", async (c) => {
    const { board, me } = await sessions.memberWho("claim-lane", c);
    const lane = laneIn(c);
    count(board, me.id);
    const { owners } = await standingOf(ports, board);
    const claimed = await people.claim(board, lane, me.id);
    if (claimed === "gone") throw boardNotFound();
    if (claimed === "has-another") throw hasAnother();
    if (claimed === "taken") throw taken(await standingOf(ports, board), lane);
    return answer(ports, c, board, { ...owners, [lane]: me.id });
  });

  routes.post("/boards/:board/lanes/:lane/release", async (c) => {
    const { board, me } = await sessions.memberWho("release-lane", c);
    const lane = laneIn(c);
    count(board, me.id);
    const { owners } = await standingOf(ports, board);
    const moved = await people.moveLane(board, lane, me.id, undefined);
    if (moved !== "moved") throw notYours();
    return answer(ports, c, board, { ...owners, [lane]: undefined });
  });

  routes.post("/boards/:board/lanes/:lane/hand-over", limitedTo(bodyBytesMax), async (c) => {
    // It may have been minutes on its way, and who sends it been removed meanwhile.
    const fields = await fieldsOf(c, ["to"]);
    const { board, me } = await sessions.memberWho("hand-over-lane", c);
    const lane = laneIn(c);
    const to = memberIn(fields, "to");
    count(board, me.id);
    const { owners, members } = await standingOf(ports, board);
    const owner = owners[lane];
    if (owner !== me.id && !mayTake(me.role, "reassign-lane")) throw notYours();
    if (to !== null && !members.some(({ id }) => id === to)) throw memberUnknown();
    const moved = await people.moveLane(board, lane, owner, to ?? undefined);
    if (moved === "has-another") throw hasAnother();
    if (moved === "may-not-play") {
      throw new Refused("not-allowed", "A listener can't own a lane.");
    }
    if (moved === "changed-meanwhile") {
      throw new Refused("lane-taken", "The lane changed hands just now; look again.");
    }
    return answer(ports, c, board, { ...owners, [lane]: to ?? undefined });
  });

  return routes;
}

function laneIn(c: Context): LaneId {
  const lane = laneOf(c.req.param("lane"));
  if (lane === undefined) throw new Refused("not-found", "A board has an upper and a lower lane.");
  return lane;
}

async function standingOf({ people }: RoutePorts, board: BoardId): Promise<Standing> {
  const standing = await people.standing(board);
  if (standing === undefined) throw boardNotFound();
  return standing;
}

/**
 * Owners as they are by this change, told to everybody first. They were read before it: it stands,
 * whether or not the store can be asked once more.
 */
async function answer(
  ports: RoutePorts,
  c: Context,
  board: BoardId,
  owners: LaneOwners,
): Promise<Response> {
  await ports.desk.announce(board);
  return c.json<LanesAnswer>({
    owners: { upper: owners.upper ?? null, lower: owners.lower ?? null },
  });
}

function taken({ members, owners }: Standing, lane: LaneId): Refused {
  const name = members.find(({ id }) => id === owners[lane])?.name ?? "Somebody";
  return new Refused("lane-taken", `${name} has the ${lane} lane.`);
}

function hasAnother(): Refused {
  return new Refused("not-allowed", "A player has one lane; the other one must be released first.");
}

function notYours(): Refused {
  return new Refused("lane-not-yours", "This lane is not yours.");
}
