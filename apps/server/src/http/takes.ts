/** Routes for takes: one more, the list, the recording of one, and its end. */
import type { TakeId } from "@halflap/board/ids";
import type { BoardId, DoneAnswer, MakeTakeAnswer, TakeCard, TakesAnswer } from "@halflap/wire/api";
import {
  takeBytesPerBoardMax,
  takesAtOnceMax,
  takesPerAddressAtOnceMax,
  takesPerBoardMax,
  takesPerMemberAtOnceMax,
  takesPerMinute,
} from "@halflap/wire/limits";
import { mayTake } from "@halflap/wire/permissions";
import { type Context, Hono } from "hono";
import { decodeTakeId, makeTakeId } from "../store/secret.ts";
import { boardNotFound, Refused } from "./answers.ts";
import { type Bound, Places } from "./places.ts";
import type { RoutePorts } from "./ports.ts";
import { Rates } from "./rate.ts";
import { takeBodyOf } from "./take-body.ts";
import { soundAnswers, unknownTake } from "./take-sound.ts";

/** /boards/:board/takes and /takes/:take */
export function takeRoutes(ports: RoutePorts): Hono {
  const { takes, sessions, desk } = ports;
  const routes = new Hono();
  const keep = keeper(ports);
  const soundAnswer = soundAnswers(ports);

  routes.get("/boards/:board/takes", async (c) => {
    const { board } = await sessions.memberWho("hear-take", c);
    return c.json<TakesAnswer>({ takes: await takes.list(board) });
  });

  routes.post("/boards/:board/takes", async (c) => {
    const { board, me } = await sessions.memberWho("record-take", c);
    const take = await keep(c, board, me.id);
    await desk.announce(board);
    return c.json<MakeTakeAnswer>({ take }, 201);
  });

  routes.get("/boards/:board/takes/:take", async (c) => {
    const member = await sessions.memberWho("hear-take", c);
    return soundAnswer(c, member, await cardIn(ports, c, member.board));
  });

  routes.delete("/boards/:board/takes/:take", async (c) => {
    const { board, me } = await sessions.member(c);
    // By its row: one whose words were damaged can be removed too.
    const id = takeIn(c);
    const from = await takes.playerOf(board, id);
    if (from === undefined) throw unknownTake();
    const isMine = from === me.id && mayTake(me.role, "remove-own-take");
    if (!isMine && !mayTake(me.role, "remove-any-take")) {
      throw new Refused("not-allowed", "Whoever played a take can remove it, and the leader.");
    }
    if (!(await takes.remove(board, id))) throw unknownTake();
    await desk.announce(board);
    return c.json<DoneAnswer>({ done: true });
  });

  return routes;
}

/** Takes a recording in: so many at a time, so many a minute from one member. */
function keeper({ takes, sessions, addressOf, now }: RoutePorts) {
  const rates = new Rates({ perMinute: takesPerMinute, burst: takesPerMinute }, now);
  const places = new Places();
  const placeFor = (...bounds: readonly Bound[]) => {
    const leave = places.take(bounds);
    if (leave === undefined) throw othersComing();
    return leave;
  };
  return async (c: Context, board: BoardId, from: TakeCard["from"]): Promise<TakeCard> => {
    const leaveOwn = placeFor(
      [`member ${board}/${from}`, takesPerMemberAtOnceMax],
      [`address ${addressOf(c)}`, takesPerAddressAtOnceMax],
    );
    let leaveServer = () => {};
    try {
      if (!rates.take(`${board}/${from}`)) throw tooOften();
      // What says nothing keeps nobody else's take from coming.
      const { head, type, sound } = await takeBodyOf(c, () => {
        leaveServer = placeFor(["server", takesAtOnceMax]);
      });
      // It may have been minutes on its way, and who sends it been removed meanwhile.
      await sessions.memberWho("record-take", c);
      const card = { ...head, id: makeTakeId(), from, at: now(), type, size: sound.length };
      const kept = await takes.keep({ board, card, sound });
      if (kept === "gone") throw boardNotFound();
      if (kept === "full") throw full();
      return card;
    } finally {
      leaveServer();
      leaveOwn();
    }
  };
}

async function cardIn({ takes }: RoutePorts, c: Context, board: BoardId): Promise<TakeCard> {
  const card = await takes.card(board, takeIn(c));
  if (card === undefined) throw unknownTake();
  return card;
}

function takeIn(c: Context): TakeId {
  const id = decodeTakeId(c.req.param("take"));
  if (id === undefined) throw unknownTake();
  return id;
}

function othersComing(): Refused {
  return new Refused("too-many", "Other takes are being sent just now; try again in a moment.");
}

function tooOften(): Refused {
  return new Refused("too-many", "So many takes in a minute are too many; wait a little.");
}

function full(): Refused {
  const bytes = `${takeBytesPerBoardMax / 2 ** 20} MiB`;
  return new Refused(
    "takes-full",
    `A board holds ${takesPerBoardMax} takes, or ${bytes} of them; remove one that is done with.`,
  );
}
