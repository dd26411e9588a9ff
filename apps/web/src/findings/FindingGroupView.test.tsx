/**
 * A finding that is open stays as it was left while somebody else changes what it says.
 *
 * @vitest-environment jsdom
 */
import { fillDocuments } from "@halflap/board/copy";
import { demoDraft } from "@halflap/board/demo";
import { emptyDocuments } from "@halflap/board/documents";
import { makeReader } from "@halflap/board/read";
import { check } from "@halflap/checker/check";
import type { Finding } from "@halflap/checker/finding";
import type { WayOut } from "@halflap/checker/ways-out";
import { assert } from "@halflap/theory/units";
import { cleanup, fireEvent, render, screen } from "@solidjs/testing-library";
import { createSignal, For, Show } from "solid-js";
import { afterEach, expect, test, vi } from "vitest";
import { createDesk, DeskProvider } from "../board/desk.ts";
import { type Listening, ListeningProvider } from "../listen/create-listening.ts";
import { makeLiveBoard } from "../session/follow.ts";
import type { Session } from "../session/session.ts";
import { findingsWords } from "../words/findings.ts";
import { waysWords } from "../words/ways.ts";
import { FindingGroupView } from "./FindingGroupView.tsx";
// Fetched here, so that no test waits for it.
import "./FindingMore.tsx";

afterEach(cleanup);

const nothing = { lane: "upper", edits: [], removes: [], causes: [], grips: [] } as const;
const ways = ["one", "two", "three", "four"].map(
  (words): WayOut => ({ ...nothing, id: words, words, motion: 0, comfort: 0 }),
);

/** The first fix of the draft, picked; its ways are told once, and `again` if there are such. */
function openFinding(again?: readonly WayOut[]) {
  const documents = emptyDocuments();
  fillDocuments(documents, demoDraft());
  const board = makeReader(documents)();
  const [findings, setFindings] = createSignal(check(board));
  const finding = findings().find(({ severity }) => severity === "fix");
  assert(finding !== undefined, "the draft has something to fix");
  const silence = vi.fn();
  const waysOut = vi
    .fn<() => Promise<readonly WayOut[]>>(() => new Promise(() => undefined))
    .mockResolvedValueOnce(ways);
  if (again) waysOut.mockResolvedValueOnce(again);
  const session = {
    ...{ board: makeLiveBoard(board).board, findings, waysOut, chart: { silence } },
    ...{ presence: () => [], ownLane: () => "upper", lane: () => ({ edit: () => undefined }) },
    mayEditChart: () => true,
  } as unknown as Session;
  const pointing = { rest: () => undefined, leave: () => undefined };
  const view = render(() => {
    const desk = createDesk(session);
    desk.setPickedId(finding.id);
    return (
      <ListeningProvider value={{ pointing } as unknown as Listening}>
        <DeskProvider value={desk}>
          <For each={desk.groups().map(({ bar }) => bar)}>
            {(bar) => (
              <Show when={desk.groupIn(bar)}>
                {(group) => <FindingGroupView group={group()} isFirstOfSection={false} />}
              </Show>
            )}
          </For>
        </DeskProvider>
      </ListeningProvider>
    );
  });
  const change = (to: (finding: Finding) => readonly Finding[]) =>
    setFindings((all) => all.flatMap((each) => (each.id === finding.id ? to(each) : [each])));
  return { ...view, finding, silence, change };
}

test("a reason half typed, and all ways, outlive a change of the finding", async () => {
  const { finding, silence, change } = openFinding();
  fireEvent.click(await screen.findByRole("button", { name: findingsWords.silence }));
  const field = screen.getByLabelText<HTMLInputElement>(findingsWords.silenceLabel);
  fireEvent.input(field, { target: { value: "the hook needs" } });
  fireEvent.click(await screen.findByRole("button", { name: waysWords.more(1) }));
  field.focus();
  const bars = finding.bars.slice(0, 1);
  change((each) => [{ ...each, bars, words: "It says something else now." }]);
  expect(screen.getByText(/It says something else now/)).toBeTruthy();
  const now = screen.getByLabelText<HTMLInputElement>(findingsWords.silenceLabel);
  expect([now === field, now.value]).toEqual([true, "the hook needs"]);
  expect(document.activeElement).toBe(field);
  for (const { words } of ways) expect(screen.getByText(words)).toBeTruthy();
  fireEvent.submit(now);
  expect(silence).toHaveBeenCalledWith(finding.rule, bars, "the hook needs");
});

test("a way out that is found again keeps what is open and where one stands", async () => {
  const [first, second, third] = ways;
  assert(first !== undefined && second !== undefined && third !== undefined, "ways are made above");
  const moved = { ...third, words: "three, and more of it" };
  const { change } = openFinding([moved, first, second]);
  const button = await screen.findByLabelText(waysWords.doThis("three"));
  button.focus();
  change((each) => [{ ...each, words: "It says something else now." }]);
  const now = await screen.findByLabelText(waysWords.doThis(moved.words));
  expect(now).toBe(button);
  expect(document.activeElement).toBe(button);
  const told = screen.getAllByText(waysWords.doIt).map((each) => each.getAttribute("aria-label"));
  expect(told).toEqual([moved, first, second].map(({ words }) => waysWords.doThis(words)));
});

test("a finding that is gone takes its entry along", async () => {
  const { finding, change } = openFinding();
  await screen.findByRole("button", { name: findingsWords.silence });
  const drawn = screen.getAllByText(finding.words, { exact: false }).length;
  change(() => []);
  expect(screen.queryAllByText(finding.words, { exact: false })).toHaveLength(drawn - 1);
  expect(screen.queryByRole("button", { name: findingsWords.silence })).toBeNull();
});
