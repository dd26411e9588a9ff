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
import { copyBytesMax } from "@halflap/wire/limits";
import { Hono } from "hono";
import * as Y from "yjs";
import type { NewRow } from "../store/log-port.ts";
import type { Membership } from "../store/people-port.ts";
import { makeBoardId, makeMemberId, makeMessageId } from "../store/secret.ts";
import { talkUpdate } from "../sync/board-desk.ts";
import { boardNotFound } from "./answers.ts";
import { bad, fieldsOf, nameIn } from "./body.ts";
import { limitedTo } from "./body-limit.ts";
import type { RoutePorts } from "./ports.ts";
import { limited } from "./rate.ts";

/** Enough for a band at its first rehearsal behind one address; a script is slowed down. */
const makingRate = { perMinute: 60, burst: 60 };

/** /boards and /boards/:board */
export function boardRoutes(ports: RoutePorts): Hono {
  const { people, sessions } = ports;
  const routes = new Hono();

  routes.get("/boards", async (c) => {
    const session = sessions.of(c);
    const mine = session === undefined ? [] : await people.memberships(session);
    const cards = await Promise.all(mine.map((membership) => cardOf(ports, membership)));
    cards.sort((a, b) => b.editedAt.localeCompare(a.editedAt));
    return c.json<BoardsAnswer>({ boards: cards });
  });

  routes.post("/boards", limited(makingRate, ports), limitedTo(copyBytesMax), async (c) => {
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
    await people.makeBoard({ id: board, leader: me, session, at: ports.now(), rows });
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

async function cardOf({ titles }: RoutePorts, { board, me }: Membership): Promise<BoardCard> {
  const { title, editedAt } = await titles.read(board);
  return { id: board, title, me, editedAt: new Date(editedAt).toISOString() };
}
