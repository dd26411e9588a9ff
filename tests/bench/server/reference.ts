/**
 * Stands for the server that the y-websocket package had until its version 2, in memory: a Y.Doc
 * with its presence for each room, every update applied and then sent to everybody in the room, its
 * writer too; nothing checked, nothing stored, nothing acknowledged, no room ever let go.
 */
import { once } from "node:events";
import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import { type WebSocket, WebSocketServer } from "ws";
import { Awareness, applyAwarenessUpdate, encodeAwarenessUpdate } from "y-protocols/awareness";
import { readSyncMessage, writeSyncStep1, writeUpdate } from "y-protocols/sync";
import * as Y from "yjs";
import { largeUpdates } from "./edits.ts";
import { boards, documentsPerBoard, largeDocuments, plainPaths, warmBoards } from "./rooms.ts";
import { serveParent } from "./told-usage.ts";

const syncMessage = 0;
const awarenessMessage = 1;
const pingEveryMs = 30_000;

type Room = {
  readonly doc: Y.Doc;
  readonly awareness: Awareness;
  readonly sockets: Set<WebSocket>;
};

const rooms = new Map<string, Room>();
const full = largeUpdates();

function roomOf(path: string): Room {
  const found = rooms.get(path);
  if (found !== undefined) return found;
  const doc = new Y.Doc({ gc: true });
  // As if read from a store: in memory from when somebody first wants it.
  if (path.startsWith("/large")) for (const update of full) Y.applyUpdate(doc, update);
  const awareness = new Awareness(doc);
  awareness.setLocalState(null);
  const room: Room = { doc, awareness, sockets: new Set() };
  const tellAll = (frame: Uint8Array) => {
    for (const socket of room.sockets) socket.send(frame);
  };
  doc.on("update", (update: Uint8Array) => {
    tellAll(framed(syncMessage, (encoder) => writeUpdate(encoder, update)));
  });
  awareness.on("update", ({ added, updated, removed }: Record<string, number[]>) => {
    const changed = [added, updated, removed].flatMap((clients) => clients ?? []);
    tellAll(presenceFrame(awareness, changed));
  });
  rooms.set(path, room);
  return room;
}

function framed(kind: number, write: (encoder: encoding.Encoder) => void): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, kind);
  write(encoder);
  return encoding.toUint8Array(encoder);
}

function presenceFrame(awareness: Awareness, clients: number[]): Uint8Array {
  return framed(awarenessMessage, (encoder) =>
    encoding.writeVarUint8Array(encoder, encodeAwarenessUpdate(awareness, clients)),
  );
}

function hear({ doc, awareness }: Room, socket: WebSocket, bytes: Uint8Array): void {
  const decoder = decoding.createDecoder(bytes);
  const kind = decoding.readVarUint(decoder);
  if (kind === awarenessMessage) {
    applyAwarenessUpdate(awareness, decoding.readVarUint8Array(decoder), socket);
  }
  if (kind !== syncMessage) return;
  const answer = encoding.createEncoder();
  encoding.writeVarUint(answer, syncMessage);
  readSyncMessage(decoder, answer, doc, socket);
  if (encoding.length(answer) > 1) socket.send(encoding.toUint8Array(answer));
}

const server = new WebSocketServer({ port: 0, host: "127.0.0.1" });
server.on("connection", (socket, { url = "/" }) => {
  socket.binaryType = "arraybuffer";
  const room = roomOf(url.split("?")[0] ?? url);
  room.sockets.add(socket);
  socket.on("message", (bytes: ArrayBuffer) => hear(room, socket, new Uint8Array(bytes)));
  const pings = setInterval(() => socket.ping(), pingEveryMs);
  socket.on("close", () => {
    clearInterval(pings);
    room.sockets.delete(socket);
  });
  socket.send(framed(syncMessage, (encoder) => writeSyncStep1(encoder, room.doc)));
  const here = [...room.awareness.getStates().keys()];
  if (here.length > 0) socket.send(presenceFrame(room.awareness, here));
});

await once(server, "listening");
const at = server.address();
const port = typeof at === "object" && at !== null ? at.port : 0;
serveParent(
  {
    address: `ws://127.0.0.1:${port}`,
    greets: true,
    origin: "",
    warm: plainPaths("warm", warmBoards * documentsPerBoard),
    measured: plainPaths("measured", boards * documentsPerBoard),
    large: plainPaths("large", largeDocuments),
  },
  async () => server.close(),
);
