/** The ceiling: sockets in rooms, and what one says goes to the others as it came. */
import { once } from "node:events";
import { type WebSocket, WebSocketServer } from "ws";
import { boards, documentsPerBoard, plainPaths, warmBoards } from "./rooms.ts";
import { serveParent } from "./told-usage.ts";

const rooms = new Map<string, Set<WebSocket>>();
const server = new WebSocketServer({ port: 0, host: "127.0.0.1", perMessageDeflate: false });

server.on("connection", (socket, { url = "/" }) => {
  const path = url.split("?")[0] ?? url;
  const room = rooms.get(path) ?? new Set();
  rooms.set(path, room);
  room.add(socket);
  socket.on("message", (bytes: Buffer) => {
    for (const other of room) if (other !== socket) other.send(bytes);
  });
  socket.on("close", () => {
    room.delete(socket);
    if (room.size === 0) rooms.delete(path);
  });
});

await once(server, "listening");
const at = server.address();
const port = typeof at === "object" && at !== null ? at.port : 0;
serveParent(
  {
    address: `ws://127.0.0.1:${port}`,
    greets: false,
    origin: "",
    warm: plainPaths("warm", warmBoards * documentsPerBoard),
    measured: plainPaths("measured", boards * documentsPerBoard),
    large: [],
  },
  async () => server.close(),
);
