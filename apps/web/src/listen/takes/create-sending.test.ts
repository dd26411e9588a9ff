/** Takes are sent one after another, each of them once, whatever happened to the answers. */

import { barId, takeId } from "@halflap/board/ids";
import type { TakeHead } from "@halflap/board/take";
import { memberId } from "@halflap/board/talk";
import { ticks } from "@halflap/theory/units";
import type { BoardId, TakeCard } from "@halflap/wire/api";
import { createRoot } from "solid-js";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { server } from "../../session/server.ts";
import type { Session } from "../../session/session.ts";
import { sendWords } from "../../words/takes.ts";
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
  return createRoot((close) => {
    const opened = { ...session, state } as unknown as Session;
    return { sending: createSending(opened, (id) => settled.push(id)), settled, close };
  });
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

/** Locks as a browser's tabs share them: whoever asks for a name waits for those before. */
function makeLocks(): Pick<LockManager, "request"> {
  const turns = new Map<string, Promise<unknown>>();
  const request = (name: string, act: () => Promise<unknown>) => {
    const turn = (turns.get(name) ?? Promise.resolve()).then(act);
    turns.set(name, turn);
    return turn;
  };
  return { request: request as LockManager["request"] };
}

beforeEach(() => {
  vi.stubGlobal("addEventListener", () => {});
  vi.stubGlobal("removeEventListener", () => {});
  vi.stubGlobal("navigator", {});
  vi.mocked(unsentOf).mockResolvedValue([]);
  vi.mocked(keepUnsent).mockResolvedValue();
  vi.mocked(forgetUnsent).mockResolvedValue();
});

afterEach(() => void vi.useRealTimers());

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

test("two tabs send what an earlier page left once", async () => {
  vi.stubGlobal("navigator", { locks: makeLocks() });
  const { sent, answer } = byHand();
  vi.mocked(unsentOf).mockResolvedValue([
    { key: "left6", board, head: headOf(6), sound: new Blob() },
  ]);
  vi.mocked(server.takes).mockResolvedValue({ ok: true, value: { takes: [] } });
  const tabs = [open(), open()];
  await expect.poll(() => sent).toEqual([6]);
  vi.mocked(server.takes).mockResolvedValue({ ok: true, value: { takes: [cardOf(headOf(6))] } });
  answer();
  await expect.poll(() => tabs.map(({ settled }) => settled)).toEqual([["t6"], ["t6"]]);
  expect(sent).toEqual([6]);
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

describe("what the server refuses for now", () => {
  const refusals = [
    ["too-many", "So many takes in a minute are too many; wait a little."],
    ["store-full", "The server’s disk is full; nothing was stored."],
  ] as const;
  /** Two takes are kept while the server refuses; what it says it has is nothing. */
  async function refused(code: (typeof refusals)[number][0] | "away", words: string) {
    vi.useFakeTimers();
    vi.mocked(sendTake).mockReset().mockResolvedValue({ ok: false, code, words });
    vi.mocked(server.takes).mockResolvedValue({ ok: true, value: { takes: [] } });
    const opened = open();
    opened.sending.keep(headOf(6), new Blob());
    opened.sending.keep(headOf(7), new Blob());
    await vi.advanceTimersByTimeAsync(0);
    const said = () =>
      opened.sending.unsent().map((each) => sendWords(each.state, each.isKept, false));
    return { ...opened, said };
  }

  test.each(refusals)("%s is said in its words, and tried again by itself", async (code, words) => {
    const { said, settled } = await refused(code, words);
    expect(said()).toEqual(Array(2).fill(`${words} This page tries again by itself.`));
    const calls = vi.mocked(sendTake).mock.calls.length;
    await vi.advanceTimersByTimeAsync(50_000);
    expect(sendTake).toHaveBeenCalledTimes(calls);
    vi.mocked(sendTake).mockImplementation((_, head) =>
      Promise.resolve({ ok: true, value: { take: cardOf(head) } }),
    );
    await vi.advanceTimersByTimeAsync(20_000);
    expect(settled).toEqual(["t6", "t7"]);
    expect(vi.getTimerCount()).toBe(0);
  });

  test("an answer that was lost while the line stays up is tried again by itself", async () => {
    const { said, settled } = await refused("away", "It does not answer.");
    expect(said()).toEqual(Array(2).fill("Kept in this browser until the server is in reach."));
    vi.mocked(sendTake).mockImplementation((_, head) =>
      Promise.resolve({ ok: true, value: { take: cardOf(head) } }),
    );
    await vi.advanceTimersByTimeAsync(70_000);
    expect(settled).toEqual(["t6", "t7"]);
    expect(vi.getTimerCount()).toBe(0);
  });

  test("nothing is tried again once the page has left the board", async () => {
    const { close, sending } = await refused(...refusals[0]);
    expect(vi.getTimerCount()).toBe(1);
    close();
    expect(vi.getTimerCount()).toBe(0);
    // An answer that comes after that sets no clock either.
    sending.retry(sending.unsent()[0]?.key ?? "");
    await vi.advanceTimersByTimeAsync(0);
    expect(vi.getTimerCount()).toBe(0);
  });
});
