/**
 * Two tabs of one browser speak with each other through the server alone, which knows what each may
 * write.
 *
 * @vitest-environment jsdom
 */
import { createRoot } from "solid-js";
import { afterEach, expect, test, vi } from "vitest";
import { Awareness } from "y-protocols/awareness";
import { WebsocketProvider } from "y-websocket";
import * as Y from "yjs";
import { makeFakeServer } from "../../../../tests/fakes/socket.ts";
import { type Line, openLine } from "./line.ts";

/** What was said between tabs, by the name of the channel. */
const said = vi.hoisted(() => {
  const said: string[] = [];
  class HeardChannel {
    onmessage: unknown = null;
    readonly name: string;
    constructor(name: string) {
      this.name = name;
    }
    postMessage(): void {
      said.push(this.name);
    }
    close(): void {
      this.onmessage = null;
    }
  }
  Reflect.set(globalThis, "BroadcastChannel", HeardChannel);
  return said;
});

const lines: Line[] = [];

afterEach(() => {
  for (const line of lines.splice(0)) line.close();
});

test("nothing goes from tab to tab past the server", async () => {
  const server = makeFakeServer();
  const open = () => {
    const doc = new Y.Doc();
    const line = createRoot(() =>
      openLine({
        ...{ address: "ws://test/sync", room: "b1/board", epoch: 1, doc },
        ...{ awareness: new Awareness(doc), socket: server.Socket },
        onRefused: () => undefined,
        onClosed: () => undefined,
      }),
    );
    lines.push(line);
    return line;
  };
  const [one, other] = [open(), open()];
  await vi.waitFor(() => expect([one, other].every((l) => l.state().confirmed)).toBe(true));
  server.reachable(false);
  one.doc.getMap("m").set("a", 1);
  one.awareness.setLocalState({ name: "Ada" });
  expect(other.doc.getMap("m").get("a")).toBeUndefined();
  expect(said).toEqual([]);
});

test("the provider as it comes would speak between tabs", () => {
  const doc = new Y.Doc();
  const { Socket } = makeFakeServer();
  const provider = new WebsocketProvider("ws://test/sync", "b1/board", doc, {
    WebSocketPolyfill: Socket,
  });
  doc.getMap("m").set("a", 1);
  expect(said).toContain("ws://test/sync/b1/board");
  provider.destroy();
});
