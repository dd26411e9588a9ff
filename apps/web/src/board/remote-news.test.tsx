/**
 * What is read aloud of the other player's work: all of it, nothing else, and each time anew.
 *
 * @vitest-environment jsdom
 */
import { addProposal } from "@halflap/board/edits/proposals";
import { barId, proposalId, slotId } from "@halflap/board/ids";
import { memberId } from "@halflap/board/talk";
import { cleanup, screen } from "@solidjs/testing-library";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { boardWords } from "../words/board.ts";
import { RemoteNews } from "./RemoteNews.tsx";
import { openBoard } from "./test-support/open-board.tsx";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => {
  cleanup();
  vi.useRealTimers();
});

function open() {
  const board = openBoard();
  board.setState({ kind: "opening" });
  board.draw(() => <RemoteNews />);
  const status = screen.getByRole("status");
  const said = () => {
    vi.advanceTimersByTime(3000);
    return status.textContent;
  };
  return { ...board, status, said };
}

test("what comes while the board is opened is no news, what comes after is", () => {
  const { lane, setState, said } = open();
  lane("lower").clearGrip(slotId("intro-1-1"));
  setState({ kind: "saved" });
  expect(said()).toBe("");
  lane("lower").clearGrip(slotId("intro-2-1"));
  expect(said()).toBe("Jo changed bar 2");
});

test("the same words are said again, from an empty region", () => {
  const { lane, setState, said, status } = open();
  setState({ kind: "saved" });
  lane("lower").setMark(barId("intro-2"), "let ring");
  expect(said()).toBe("Jo changed bar 2");
  lane("lower").setMark(barId("intro-2"), "");
  expect(status.textContent).toBe("");
  expect(said()).toBe("Jo changed bar 2");
});

test("chords that the other wrote are said, my own are not", () => {
  const { chart, read, theirs, setState, said } = open();
  setState({ kind: "saved" });
  const write = (text: string) => {
    const bar = read().sections[0]?.bars[1];
    if (bar) chart.writeBar(bar, text);
  };
  write("Gm7");
  expect(said()).toBe("");
  theirs(() => write("C9"));
  expect(said()).toBe(boardWords.rewrote("bar 2"));
});

test("a proposal of the other's is said", () => {
  const { documents, setState, said } = open();
  setState({ kind: "offline", changes: 0, isKept: true });
  const bar = barId("intro-3");
  addProposal(documents.board, {
    ...{ id: proposalId("p1"), lane: "upper", from: memberId("jo"), words: "Rest here." },
    ...{ bars: [bar], edits: [{ kind: "lay-out", bar, rest: true }] },
  });
  expect(said()).toBe(boardWords.proposed("Jo", "bar 3"));
});
