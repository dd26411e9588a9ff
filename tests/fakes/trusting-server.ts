/**
 * The server that the fuzz must catch: it applies what comes and looks at nothing first. It speaks
 * the same frames. With HALFLAP_TRUSTING=catches it lives through its own exceptions.
 */
import type { AddressInfo } from "node:net";
import { encodeSaved } from "@halflap/wire/messages";
import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import { type WebSocket, WebSocketServer } from "ws";
import * as sync from "y-protocols/sync";
import * as Y from "yjs";

const catches = process.env.HALFLAP_TRUSTING === "catches";
const docs = new Map<string, Y.Doc>();
const server = new WebSocketServer({ port: 0, host: "127.0.0.1" });

server.on("listening", () => {
  const { port } = server.address() as AddressInfo;
  process.stdout.write(`Halflap is on http://127.0.0.1:${port}\n`);
});

server.on("connection", (socket, { url = "" }) => {
  const doc = docOf(url);
  let decided = 0;
  socket.on("error", () => socket.terminate());
  socket.send(framed((encoder) => sync.writeSyncStep1(encoder, doc)));
  const pass = (update: Uint8Array, origin: unknown) => {
    if (socket !== origin) socket.send(framed((encoder) => sync.writeUpdate(encoder, update)));
  };
  doc.on("update", pass);
  socket.on("close", () => doc.off("update", pass));
  socket.on("message", (message: Buffer) => {
    const frame = new Uint8Array(message);
    if (frame[0] === 0 && frame[1] !== 0) decided += 1;
    try {
      receive(socket, doc, frame);
    } catch (fault) {
      if (!catches) throw fault;
    }
    socket.send(encodeSaved(Y.encodeStateVector(doc), decided));
  });
});

function docOf(url: string): Y.Doc {
  const doc = docs.get(url) ?? new Y.Doc();
  docs.set(url, doc);
  return doc;
}

function receive(socket: WebSocket, doc: Y.Doc, frame: Uint8Array): void {
  const decoder = decoding.createDecoder(frame);
  if (decoding.readVarUint(decoder) !== 0) return;
  const answer = encoding.createEncoder();
  encoding.writeVarUint(answer, 0);
  sync.readSyncMessage(decoder, answer, doc, socket, (fault) => {
    if (!catches) throw fault;
  });
  if (encoding.length(answer) > 1) socket.send(encoding.toUint8Array(answer));
}

function framed(write: (encoder: encoding.Encoder) => void): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, 0);
  write(encoder);
  return encoding.toUint8Array(encoder);
}
