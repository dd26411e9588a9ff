/** The baseline of edit-to-paint: two bare pages, a WebSocket that passes on what it gets. */
import { once } from "node:events";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { WebSocketServer } from "ws";

const page = `<!doctype html><title>plain</title><input><output></output><script>
const socket = new WebSocket(location.href.replace("http", "ws"));
const input = document.querySelector("input");
const output = document.querySelector("output");
input.onkeydown = (event) => { if (event.key === "Enter") socket.send(input.value); };
socket.onmessage = (event) => { output.textContent = event.data; };
socket.onopen = () => { document.body.dataset.open = ""; };
</script>`;

export type PlainPages = { readonly address: string; stop(): void };

/** Serves the page and the socket on a free port. */
export async function servePlainPages(): Promise<PlainPages> {
  const server = createServer((_, answer) => {
    answer.setHeader("content-type", "text/html");
    answer.end(page);
  });
  const sockets = new WebSocketServer({ server });
  sockets.on("connection", (from) => {
    from.on("message", (message) => {
      for (const to of sockets.clients) to.send(message.toString());
    });
  });
  server.listen(0, "127.0.0.1");
  await once(server, "listening");
  const { port } = server.address() as AddressInfo;
  return {
    address: `http://127.0.0.1:${port}/`,
    stop() {
      for (const client of sockets.clients) client.terminate();
      server.close();
    },
  };
}
