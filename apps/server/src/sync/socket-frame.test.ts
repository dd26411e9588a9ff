/** Frames of ours beside those of a WebSocket library, and read by it. */
import { once } from "node:events";
import type { Writable } from "node:stream";
import { expect, test } from "vitest";
import * as ws from "ws";
import { socketFrame } from "./socket-frame.ts";

// Exported, but not among its types.
const { Receiver } = ws as unknown as {
  Receiver: new (options: { isServer: boolean; binaryType: string }) => Writable;
};

// RFC 6455, section 5.7: 256 bytes unmasked begin 82 7E 0100, 65,536 bytes 82 7F 0000000000010000.
test.each([
  [256, "827e0100"],
  [65_536, "827f0000000000010000"],
])("the head for %i bytes is the standard's example", (length, head) => {
  const bytes = Buffer.concat(socketFrame(new Uint8Array(length)));
  expect(bytes.subarray(0, head.length / 2).toString("hex")).toBe(head);
  expect(bytes.length).toBe(head.length / 2 + length);
});

test.each([0, 1, 125, 126, 16_384, 16_385, 65_535, 65_536, 1_048_576])(
  "%i bytes are read as they were written",
  async (length) => {
    const payload = Uint8Array.from({ length }, (_, i) => i % 251);
    const receiver = new Receiver({ isServer: false, binaryType: "nodebuffer" });
    const message = once(receiver, "message");
    for (const bytes of socketFrame(payload)) receiver.write(bytes);
    const [data, isBinary] = await message;
    expect(isBinary).toBe(true);
    expect(Buffer.compare(data, payload)).toBe(0);
  },
);
