/** The table for sockets: the door of each document, and every frame that a client may say. */
import { type DocumentName, documentNames } from "@halflap/board/documents";
import type { Action } from "@halflap/wire/permissions";
import { encodeClockQuestion, encodeTogetherAsk } from "@halflap/wire/together";
import * as Y from "yjs";
import { type Heard, RawClient } from "../raw-client.ts";
import { type Cell, members, onBoard, type Row } from "./row.ts";
import { type Knocker, type Scene, trialRoot } from "./scene.ts";

const ok = "done";
const away = "closed 4401";
const notYours = "not-yours";
const malformed = "malformed";

const everyMember = members(away, ok, ok, ok, ok);
const players = members(away, notYours, ok, ok, ok);
const nobody = members(away, notYours, notYours, notYours, notYours);
const unreadable = members(away, malformed, malformed, malformed, malformed);

/** Whose new content each document takes. The lower lane is free, and free is nobody's. */
const writable: Readonly<Record<DocumentName, Row["cells"]>> = {
  board: players,
  "lane-upper": members(away, notYours, notYours, ok, notYours),
  "lane-lower": nobody,
  talk: nobody,
};

const doors: readonly Row[] = [
  ...documentNames.map((document) =>
    spoken(`the door of ${document}`, "GET /sync/:board/:document", everyMember, {
      document,
      say: () => undefined,
      answer: (frame) => (frame.kind === "step-1" ? ok : undefined),
    }),
  ),
  {
    name: "the door of no document",
    at: "GET /sync/:board/:document",
    cells: members(
      away,
      ...(["closed 4404", "closed 4404", "closed 4404", "closed 4404"] as const),
    ),
    act: async ({ board, people }, who) => {
      const { code } = await RawClient.open(people[who].visitor, board, "attic").closed;
      return `closed ${code}`;
    },
  },
];

const reading: readonly Row[] = documentNames.map((document) =>
  by(
    "read",
    spoken(`asking what ${document} holds`, "0.0", everyMember, {
      document,
      say: (client) => client.sendStep1(),
      answer: (frame) => (frame.kind === "step-2" ? ok : undefined),
    }),
  ),
);

const writing: readonly Row[] = documentNames.flatMap((document) => {
  const news = (as: "step 2" | "an edit", at: string) =>
    spoken(`${as} with news for ${document}`, at, writable[document], {
      document,
      say: (client) => {
        if (as === "step 2") client.sendStep2(newsFor(client));
        else client.sendUpdate(newsFor(client));
      },
      answer: decided,
    });
  const rows = [news("step 2", "0.1"), news("an edit", "0.2")];
  return document === "board" ? rows.map((row) => by("edit-chart", row)) : rows;
});

const presence: readonly Row[] = [
  spoken("step 2 with nothing new", "0.1", everyMember, {
    document: "talk",
    say: (client) => client.sendStep2(Y.encodeStateAsUpdate(client.doc)),
    answer: decided,
  }),
  spoken("being here under one's own name", "1", everyMember, {
    document: "board",
    say: (client, { people }, who) => client.sendAwareness([entryOf(client, people[who].me)]),
    answer: (frame) => presenceIn(frame, ok),
  }),
  spoken(
    "being here under the leader's name",
    "1",
    members(away, ...(["dropped", "dropped", "dropped", ok] as const)),
    {
      document: "board",
      say: (client, { people }) => client.sendAwareness([entryOf(client, people.leader.me)]),
      answer: (frame) => presenceIn(frame, ok),
    },
  ),
  spoken("asking who is here", "3", everyMember, {
    document: "board",
    say: (client) => client.sendBytes(new Uint8Array([3])),
    answer: (frame) => (frame.kind === "awareness" ? ok : undefined),
  }),
];

const question = encodeClockQuestion({ sentMs: 5, isAlong: false });
const wish = encodeTogetherAsk({ kind: "stopped" });
const together: readonly Row[] = [
  spoken("asking for the time", "102", everyMember, {
    document: "board",
    say: (client) => client.sendBytes(question),
    answer: (frame) => (frame.kind === "time" ? ok : undefined),
  }),
  spoken("asking for the time of a lane", "102", unreadable, {
    document: "lane-lower",
    say: (client) => client.sendBytes(question),
    answer: () => undefined,
  }),
  by(
    "play-together",
    spoken("a word that all play by", "104", everyMember, {
      document: "board",
      say: (client) => client.sendBytes(wish),
      answer: (frame) => (frame.kind === "told" ? ok : undefined),
    }),
  ),
  spoken("a word that all play by, in talk", "104", unreadable, {
    document: "talk",
    say: (client) => client.sendBytes(wish),
    answer: () => undefined,
  }),
];

/** Every frame, and the door before it, with what comes of it for each of the seven. */
export const socketRows: readonly Row[] = [
  ...doors,
  ...reading,
  ...writing,
  ...presence,
  ...together,
];

type Said = {
  readonly document: DocumentName;
  say(client: RawClient, scene: Scene, who: Knocker): void;
  /** What a frame that came behind it says about it; undefined when it says nothing. */
  answer(frame: Heard): Cell | undefined;
};

/** Says something on a synced socket, and answers with the first refusal or answer behind it. */
function spoken(name: string, at: string, cells: Row["cells"], said: Said): Row {
  const act: Row["act"] = async (scene, who) => {
    const client = RawClient.open(scene.people[who].visitor, scene.board, said.document);
    const entered = client.until((frame) => frame.kind === "awareness");
    const first = await Promise.race([
      entered.then(() => undefined),
      client.closed.then(({ code }) => `closed ${code}`),
    ]).catch(() => client.closed.then(({ code }) => `closed ${code}`));
    if (first !== undefined) return first;
    const before = at.startsWith("GET") ? 0 : await quiet(client);
    said.say(client, scene, who);
    const cell = await firstAnswer(client, before, said);
    await client.close();
    return cell;
  };
  return { name, at, cells, act };
}

/** Waits until all that a newcomer is told has come; answers how many frames that were. */
async function quiet(client: RawClient): Promise<number> {
  await client.settled();
  return client.heard.length;
}

async function firstAnswer(client: RawClient, before: number, { answer }: Said): Promise<Cell> {
  const read = (frame: Heard) => (frame.kind === "refused" ? frame.why : answer(frame));
  const isNew = (frame: Heard) => client.heard.indexOf(frame) >= before;
  const found = await client.until((frame) => isNew(frame) && read(frame) !== undefined);
  return read(found) ?? "nothing";
}

/** What is not refused is decided by a saved message. */
function decided(frame: Heard): Cell | undefined {
  return frame.kind === "saved" && frame.decided > 0 ? ok : undefined;
}

function presenceIn(frame: Heard, told: Cell): Cell | undefined {
  if (frame.kind !== "awareness") return undefined;
  return frame.entries.length > 0 ? told : "dropped";
}

function entryOf(client: RawClient, { id, name }: { id: string; name: string }) {
  return { client: client.doc.clientID, clock: 1, state: { member: id, name } };
}

/** One mark more, by a client that has never written. */
function newsFor(client: RawClient): Uint8Array {
  const doc = new Y.Doc();
  Y.applyUpdate(doc, Y.encodeStateAsUpdate(client.doc));
  const before = Y.encodeStateVector(doc);
  doc.getMap(trialRoot).set("mark", "here");
  return Y.encodeStateAsUpdate(doc, before);
}

function by(action: Action, decidedBy: Row): Row {
  return { ...decidedBy, by: { action, among: onBoard } };
}
