/** Takes are sent one after another, each of them once, whatever happened to the answers. */

import { barId, takeId } from "@halflap/board/ids";
import type { TakeHead } from "@halflap/board/take";
import { memberId } from "@halflap/board/talk";
import { ticks } from "@halflap/theory/units";
import type { BoardId, TakeCard } from "@halflap/wire/api";
import { createRoot } from "solid-js";
import { beforeEach, expect, test, vi } from "vitest";
import { server } from "../../session/server.ts";
import type { Session } from "../../session/session.ts";
import { createSending } from "./create-sending.ts";
import { sendTake } from "./send-take.ts";
import { forgetUnsent, keepUnsent, unsentOf } from "./unsent-store.ts";

vi.mock("./send-take.ts");
vi.mock("./unsent-store.ts");
vi.mock("../../session/server.ts");

const me = memberId("ada");
const board = "board" as BoardId;

function headOf(offsetMs: number): TakeHead {
  const bars = [{ bar: barId("a~b1"), length: ticks(192) }];
  return { name: "Riff", bars, offsetMs, lengthMs: 2000, tempo: 104 };
}

function cardOf(head: TakeHead): TakeCard {
  const id = takeId(`t${head.offsetMs}`);
  return { ...head, id, from: me, at: 1, type: "audio/webm", size: 100 };
}

function open() {
  let made = 0;
  const makeId = () => {
    made += 1;
    return `k${made}`;
  };
  const session = { id: board, makeId, me: () => ({ id: me }), board: { takes: [] } };
  const state = () => ({ kind: "saved" });
  const settled: string[] = [];
  const sending = createRoot(() =>
    createSending({ ...session, state } as unknown as Session, (id) => settled.push(id)),
  );
  return { sending, settled };
}

/** Sending as it is answered by hand: what was sent so far, and the answer to the last. */
function byHand() {
  const sent: number[] = [];
  const answers: (() => void)[] = [];
  vi.mocked(sendTake).mockImplementation((_, head) => {
    sent.push(head.offsetMs);
    return new Promise((resolve) => {
      answers.push(() => resolve({ ok: true, value: { take: cardOf(head) } }));
    });
  });
  return { sent, answer: () => answers.shift()?.() };
}

beforeEach(() => {
  vi.stubGlobal("addEventListener", () => {});
  vi.mocked(unsentOf).mockResolvedValue([]);
  vi.mocked(keepUnsent).mockResolvedValue();
  vi.mocked(forgetUnsent).mockResolvedValue();
});

test("what is kept while another take is on its way is sent after it", async () => {
  const { sent, answer } = byHand();
  const { sending, settled } = open();
  sending.keep(headOf(1), new Blob());
  await expect.poll(() => sent).toEqual([1]);
  sending.keep(headOf(2), new Blob());
  answer();
  await expect.poll(() => sent).toEqual([1, 2]);
  answer();
  await expect.poll(() => settled).toEqual(["t1", "t2"]);
  expect(server.takes).not.toHaveBeenCalled();
});

test("what an earlier page left is sent, unless the server has it already", async () => {
  const { sent, answer } = byHand();
  const left = [headOf(3), headOf(4)].map((head) => {
    return { key: `left${head.offsetMs}`, board, head, sound: new Blob() };
  });
  vi.mocked(unsentOf).mockResolvedValue(left);
  vi.mocked(server.takes).mockResolvedValue({ ok: true, value: { takes: [cardOf(headOf(3))] } });
  const { sending, settled } = open();
  await expect.poll(() => settled).toEqual(["t3"]);
  await expect.poll(() => sent).toEqual([4]);
  answer();
  await expect.poll(() => settled).toEqual(["t3", "t4"]);
  expect(sending.unsent()).toEqual([]);
});

test("while the server does not say what it has, nothing is sent twice", async () => {
  const { sent } = byHand();
  vi.mocked(unsentOf).mockResolvedValue([
    { key: "left5", board, head: headOf(5), sound: new Blob() },
  ]);
  const away = { ok: false, code: "away", words: "" } as const;
  vi.mocked(server.takes).mockResolvedValue(away);
  const { sending } = open();
  await expect.poll(() => sending.unsent()[0]?.state.kind).toBe("waiting");
  expect(sent).toEqual([]);
  vi.mocked(server.takes).mockResolvedValue({ ok: true, value: { takes: [] } });
  sending.retry("left5");
  await expect.poll(() => sent).toEqual([5]);
});
