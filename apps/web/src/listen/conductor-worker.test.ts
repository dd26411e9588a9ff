/** What the conductor reports goes under the number of the newest request that it has heard. */
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { Numbered, Position, Report, Request } from "./player-messages.ts";
import { barAt, block, board, plain } from "./test-support/rehearsal.ts";

type Heard = { readonly data: unknown; readonly ports: readonly unknown[] };

const reports: string[] = [];
let listen: (event: Heard) => void = () => {};

beforeEach(() => {
  vi.useFakeTimers();
  vi.stubGlobal("self", {
    addEventListener: (_: string, listener: typeof listen) => {
      listen = listener;
    },
    postMessage: ({ what, number }: Numbered<Report>) => reports.push(`${what.kind} ${number}`),
  });
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

test("a plan and an end are told under what was asked for last", async () => {
  await import("./conductor-worker.ts");
  const line: { onmessage?: (event: { data: Position }) => void; postMessage(): void } = {
    postMessage: () => {},
  };
  listen({ data: { sampleRate: 48_000 }, ports: [line] });
  const ask = (what: Request, number: number) =>
    listen({ data: { what, number } satisfies Numbered<Request>, ports: [] });
  ask({ kind: "board", fields: board }, 0);
  ask({ kind: "wishes", wishes: plain }, 0);
  ask({ kind: "play", bar: barAt(2) }, 1);
  let sample = 0;
  const hear = () => {
    sample += block;
    line.onmessage?.({ data: { sample, time: 0 } });
    vi.runAllTimers();
  };
  for (const _ of [1, 2, 3]) hear();
  expect(reports).toEqual(["plan 1"]);
  // The page waits for something else already, and goes on feeding what is edited.
  ask({ kind: "board", fields: { title: "Another" } }, 2);
  for (const _ of [1, 2, 3]) hear();
  expect(reports).toEqual(["plan 1", "plan 1"]);
  ask({ kind: "stop" }, 3);
  expect(reports).toEqual(["plan 1", "plan 1", "stopped 3"]);
});
