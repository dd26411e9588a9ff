/** Routes for boards: mine, a new one, one, and its end. */
import { decodeCopy, fillDocuments } from "@halflap/board/copy";
import { documentNames, emptyDocuments } from "@halflap/board/documents";
import type {
  BoardAnswer,
  BoardCard,
  BoardsAnswer,
  DoneAnswer,
  MakeBoardAnswer,
  Me,
} from "@halflap/wire/api";
import { boardsPerAddressDaily, boardsPerMemberMax, copyBytesMax } from "@halflap/wire/limits";
import { type Context, Hono } from "hono";
import * as Y from "yjs";
import type { NewRow } from "../store/log-port.ts";
import type { Membership } from "../store/people-port.ts";
import { makeBoardId, makeMemberId, makeMessageId } from "../store/secret.ts";
import { talkUpdate } from "../sync/board-desk.ts";
import { boardNotFound, Refused } from "./answers.ts";
import { bad, fieldsOf } from "./body.ts";
import { limitedTo } from "./body-limit.ts";
import { nameIn } from "./names.ts";
import type { RoutePorts } from "./ports.ts";
import { limited } from "./rate.ts";

/** Enough for a band at its first rehearsal behind one address; a script is slowed down. */
const makingRate = { perMinute: 60, burst: 60 };
const dailyRate = { perMinute: boardsPerAddressDaily / (24 * 60), burst: boardsPerAddressDaily };

/** /boards and /boards/:board */
export function boardRoutes(ports: RoutePorts): Hono {
  const { people, sessions } = ports;
  const routes = new Hono();

  routes.get("/boards", async (c) => {
    const session = sessions.of(c);
    const mine = session === undefined ? [] : await people.memberships(session);
    const asker = session?.toString("hex") ?? "";
    const cards = await Promise.all(mine.map((membership) => cardOf(ports, membership, asker)));
    cards.sort((a, b) => b.editedAt.localeCompare(a.editedAt));
    return c.json<BoardsAnswer>({ boards: cards });
  });

  const rates = [limited(makingRate, ports), limited(dailyRate, ports)] as const;

  routes.post("/boards", ...rates, limitedTo(copyBytesMax), async (c) => {
    await refuseMore(ports, c);
    const fields = await fieldsOf(c, ["name", "copy"]);
    const name = nameIn(fields);
    const copy = decodeCopy(fields.copy);
    if (!copy.ok) throw bad(`The board can't be read: ${copy.error.path} ${copy.error.words}.`);
    const documents = emptyDocuments();
    fillDocuments(documents, copy.value);
    const board = makeBoardId();
    const me: Me = { id: makeMemberId(), name, role: "leader" };
    const rows = documentNames.map((document): NewRow => {
      const owners = { upper: undefined, lower: undefined };
      const talk = { members: [me], owners, takes: [] };
      const filled = Y.encodeStateAsUpdate(documents[document]);
      const update = document === "talk" ? (talkUpdate(filled, talk) ?? filled) : filled;
      return { key: { board, document }, message: makeMessageId(), update, bindings: [] };
    });
    const session = sessions.ensure(c);
    const made = await people.makeBoard({ id: board, leader: me, session, at: ports.now(), rows });
    if (made === "full") throw serverFull();
    return c.json<MakeBoardAnswer>({ board, me }, 201);
  });

  routes.get("/boards/:board", async (c) => {
    const { board, me } = await sessions.member(c);
    const epoch = await people.epoch(board);
    if (epoch === undefined) throw boardNotFound();
    return c.json<BoardAnswer>({ board, me, epoch });
  });

  routes.delete("/boards/:board", async (c) => {
    const { board } = await sessions.memberWho("delete-board", c);
    await people.removeBoard(board);
    await ports.desk.closeBoard(board);
    return c.json<DoneAnswer>({ done: true });
  });

  return routes;
}

/** Whoever leads many boards makes no more of them; the others' boards are not theirs. */
async function refuseMore({ people, sessions }: RoutePorts, c: Context): Promise<void> {
  const session = sessions.of(c);
  const mine = session === undefined ? [] : await people.memberships(session);
  if (mine.filter(({ me }) => me.role === "leader").length < boardsPerMemberMax) return;
  const words = `You lead ${boardsPerMemberMax} boards, which is as many as one may here.`;
  throw new Refused("boards-full", `${words} Remove one that is done with.`);
}

function serverFull(): Refused {
  const words = "This server keeps as many boards as it can. Ask whoever keeps the server.";
  return new Refused("boards-full", words);
}

async function cardOf(
  { titles }: RoutePorts,
  { board, me }: Membership,
  asker: string,
): Promise<BoardCard> {
  const { title, editedAt } = await titles.read(board, asker);
  return { id: board, title, me, editedAt: new Date(editedAt).toISOString() };
}
