/** A row of the table of who may do what: the act, and what comes of it for each of the seven. */
import type { Action } from "@halflap/wire/permissions";
import { type Knocker, knockers, type Scene } from "./scene.ts";

/** "done", the code of a refusal, the code that closed the socket, or what was seen. */
export type Cell = string;

export type Row = {
  readonly name: string;
  /** The route as the application names it, or the numbers that begin the frame. */
  readonly at: string;
  /** The action of the permission table that decides it, for those whose role alone decides. */
  readonly by?: { readonly action: Action; readonly among: readonly Knocker[] };
  readonly cells: Readonly<Record<Knocker, Cell>>;
  /** Does it against the running server. */
  act(scene: Scene, who: Knocker): Promise<Cell>;
};

/** The four of the seven who are on the board. */
export const onBoard: readonly Knocker[] = ["listener", "player", "laned", "leader"];

type Seven = readonly [Cell, Cell, Cell, Cell, Cell, Cell, Cell];

/** The cells in the order of the seven. */
export function cellsOf(seven: Seven): Row["cells"] {
  const pairs = knockers.map((who, i) => [who, seven[i]] as const);
  return Object.fromEntries(pairs) as Row["cells"];
}

/** Cells for an act that a stranger, an outsider and a removed member are all kept from alike. */
export function members(away: Cell, ...four: readonly [Cell, Cell, Cell, Cell]): Row["cells"] {
  return cellsOf([away, away, away, ...four]);
}

/** Names of routes or opcodes without a row. */
export function withoutRow(names: readonly string[], rows: readonly Row[]): readonly string[] {
  return names.filter((name) => !rows.some(({ at }) => at === name));
}

/** Rows for what is no route and no opcode. */
export function withoutPlace(names: readonly string[], rows: readonly Row[]): readonly string[] {
  return rows.filter(({ at }) => !names.includes(at)).map(({ name }) => name);
}

export type Wrong = { readonly row: string; readonly who: Knocker; readonly what: string };

export type Ground = {
  makeScene(): Promise<Scene>;
  stateOf(scene: Scene): Promise<string>;
};

/** Actions after which the store holds what it held. */
const changeless: ReadonlySet<Action> = new Set([
  "read",
  "hear-take",
  "see-links",
  "play-together",
]);

/**
 * Every cell tried; answers those that came out otherwise, acts that were refused and yet changed
 * something, and acts that changed nothing though they should. A scene serves until something
 * changed it.
 */
export async function wrongCells(rows: readonly Row[], ground: Ground): Promise<readonly Wrong[]> {
  const wrong: Wrong[] = [];
  let scene = await ground.makeScene();
  for (const { name, by, cells, act } of rows) {
    for (const who of knockers) {
      const before = await ground.stateOf(scene);
      const cell = await act(scene, who);
      const isChanged = (await ground.stateOf(scene)) !== before;
      const complain = (what: string) => wrong.push({ row: name, who, what });
      if (cell !== cells[who]) complain(`${cell} instead of ${cells[who]}`);
      if (isChanged && cell !== "done") complain(`${cell}, but changed something`);
      const isWrite = by !== undefined && !changeless.has(by.action);
      if (isWrite && !isChanged && cell === "done") complain("done, but nothing changed");
      if (isChanged) scene = await ground.makeScene();
    }
  }
  return wrong;
}
