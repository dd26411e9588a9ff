/** Routes for members: one's own name, taking somebody off the board, handing over the lead. */
import { isStoredId } from "@halflap/board/ids";
import { memberId } from "@halflap/board/talk";
import type { DoneAnswer } from "@halflap/wire/api";
import { bodyBytesMax } from "@halflap/wire/limits";
import { Hono } from "hono";
import { Refused } from "./answers.ts";
import { bad, fieldsOf, memberIn } from "./body.ts";
import { limitedTo } from "./body-limit.ts";
import type { CountChange } from "./change-rates.ts";
import { nameIn } from "./names.ts";
import type { RoutePorts } from "./ports.ts";

/** /boards/:board/name, /members/:member and /leader */
export function memberRoutes({ people, sessions, desk }: RoutePorts, count: CountChange): Hono {
  const routes = new Hono();

  routes.post("/boards/:board/name", limitedTo(bodyBytesMax), async (c) => {
    const fields = await fieldsOf(c, ["name"]); // first: who asks may be removed while it comes
    const { board, me } = await sessions.memberWho("rename-self", c);
    const name = nameIn(fields);
    count(board, me.id);
    await people.rename(board, me.id, name);
    await desk.announce(board);
    return c.json<DoneAnswer>({ done: true });
  });

  routes.delete("/boards/:board/members/:member", async (c) => {
    const { board, me } = await sessions.memberWho("remove-member", c);
    const text = c.req.param("member");
    if (text === me.id) {
      throw new Refused(
        "not-allowed",
        "Hand over the lead first; then the new leader can remove you.",
      );
    }
    const removed = isStoredId(text) && (await people.removeMember(board, memberId(text)));
    if (!removed) throw memberUnknown();
    await desk.announce(board);
    return c.json<DoneAnswer>({ done: true });
  });

  routes.post("/boards/:board/leader", limitedTo(bodyBytesMax), async (c) => {
    const fields = await fieldsOf(c, ["to"]);
    const { board, me } = await sessions.memberWho("hand-over-leader", c);
    const to = memberIn(fields, "to");
    if (to === null) throw bad('"to" must be a member\'s id.');
    count(board, me.id);
    const standing = await people.standing(board);
    if (!standing?.members.some(({ id }) => id === to)) throw memberUnknown();
    if (!(await people.handLeader(board, me.id, to))) {
      throw new Refused("not-allowed", "Only a player can take over the lead.");
    }
    await desk.announce(board);
    return c.json<DoneAnswer>({ done: true });
  });

  return routes;
}

/** A member who is not on the board, or not any more. */
export function memberUnknown(): Refused {
  return new Refused("member-unknown", "There is no such member on this board.");
}
