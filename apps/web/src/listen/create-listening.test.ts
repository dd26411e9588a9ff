/** What goes round is what stands on the board, whoever took the rest away. */
import type { Board } from "@halflap/board/board";
import { createRoot } from "solid-js";
import { createStore } from "solid-js/store";
import { expect, test, vi } from "vitest";
import type { Desk } from "../board/desk.ts";
import { createListening } from "./create-listening.ts";
import { barAt, bars, board } from "./test-support/rehearsal.ts";

vi.mock("./together/create-together.ts", () => ({ createTogether: () => ({ turn: () => {} }) }));

const [intro, verse] = board.sections;
if (!intro || !verse) throw new Error("no two sections");
const ends = { from: barAt(0), to: verse.bars[0]?.id ?? barAt(0) };

test.each([
  ["its section", { kind: "section", section: verse.id }],
  ["its last bar", { kind: "bars", ...ends }],
] as const)("a loop ends with %s, and is back when that comes back", (_, loop) => {
  const [live, setLive] = createStore<Pick<Board, "sections">>({ sections: board.sections });
  const desk = { session: { board: live } } as unknown as Desk;
  const { wishes, wish } = createRoot(() => createListening(desk));
  wish({ loop });
  expect(wishes().loop).toEqual(loop);
  setLive({ sections: board.sections.filter(({ id }) => id !== verse.id) });
  expect(wishes().loop).toBeUndefined();
  wish({ tempoFactor: 0.8 });
  setLive({ sections: board.sections });
  expect(wishes()).toMatchObject({ loop, tempoFactor: 0.8 });
});

test("a bar in the middle may go", () => {
  const sections = [{ ...intro, bars: intro.bars.filter((bar) => bar !== bars[1]) }, verse];
  const desk = { session: { board: { sections } } } as unknown as Desk;
  const { wishes, wish } = createRoot(() => createListening(desk));
  const loop = { kind: "bars", from: barAt(0), to: barAt(2) } as const;
  wish({ loop });
  expect(wishes().loop).toEqual(loop);
});
