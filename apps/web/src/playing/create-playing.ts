/** Everything the playing panel knows about its lane and bar, and what it may do there. */
import type { Bar, BarId, Lane, LaneId, Section } from "@halflap/board/board";
import { type FillId, fillId, type StrumId, strumId } from "@halflap/board/ids";
import { fillsMax, strumsMax } from "@halflap/board/limits";
import { beatOf } from "@halflap/board/meter";
import type { Fill, Strum } from "@halflap/board/playing";
import type { LaneEdit, StrumPlace } from "@halflap/board/proposal";
import { printSteps } from "@halflap/board/strum-text";
import { type Accessor, createMemo, createSignal } from "solid-js";
import type { Desk } from "../board/desk.ts";
import { playingWords } from "../words/playing.ts";
import { barsWith, passesOf, strumInForce } from "./in-force.ts";
import { fillsReaching } from "./playing-figure.ts";
import { blankStrum, type StrumDraft } from "./step-grid.ts";
import { roomForFill } from "./tab-grid.ts";

export type Playing = ReturnType<typeof createPlaying>;

/** Follows the lane and bar; every accessor is a memo or as cheap as one. */
export function createPlaying(desk: Desk, laneId: Accessor<LaneId>, barId: Accessor<BarId>) {
  const { board } = desk.session;
  const lane = (): Lane => board.lanes[laneId()];
  const section = createMemo((): Section | undefined =>
    board.sections.find((each) => each.bars.some((bar) => bar.id === barId())),
  );
  const bar = createMemo((): Bar | undefined =>
    section()?.bars.find((each) => each.id === barId()),
  );
  const passes = createMemo(() => {
    const here = section();
    return here ? passesOf(board.form, here.id) : [];
  });
  const edit = (edits: readonly LaneEdit[]) => desk.session.lane()?.edit(edits);
  const base = {
    laneId,
    barId,
    lane,
    section,
    bar,
    passes,
    edit,
    meter: () => board.meter,
    beat: () => beatOf(board.meter),
    setup: () => lane().setup,
    mayWrite: () => desk.mayWrite(laneId()),
  };
  return { ...base, ...createStrums(desk, base), ...createFills(desk, base) };
}

type Base = {
  readonly laneId: Accessor<LaneId>;
  readonly barId: Accessor<BarId>;
  readonly lane: Accessor<Lane>;
  readonly section: Accessor<Section | undefined>;
  readonly bar: Accessor<Bar | undefined>;
  readonly edit: (edits: readonly LaneEdit[]) => void;
};

/** The pattern that is shown: the one that was picked for this bar, else the one in force. */
function createShownStrum({ laneId, barId, lane, section }: Base) {
  const [picked, setPicked] = createSignal<{ readonly key: string; readonly strum: StrumId }>();
  const key = () => `${laneId()}-${barId()}`;
  const inForce = createMemo(() => {
    const here = section();
    return here && strumInForce(lane(), here.id, barId());
  });
  const shown = createMemo((): Strum | undefined => {
    const choice = picked();
    const own = choice?.key === key() ? lane().strums.get(choice.strum) : undefined;
    return own ?? inForce()?.strum;
  });
  return { inForce, shown, pick: (strum: StrumId) => setPicked({ key: key(), strum }) };
}

/** The lane's patterns: what is shown of them, and every change to them. */
function createStrums(desk: Desk, base: Base) {
  const { session } = desk;
  const { barId, lane, section, edit } = base;
  const { inForce, shown, pick } = createShownStrum(base);
  const draft = createMemo((): StrumDraft => shown() ?? blankStrum(session.board.meter));

  /** Puts a new pattern into the library, and to work where nothing else is. */
  const addStrum = (from: StrumDraft) => {
    const id = strumId(session.makeId());
    const here = section();
    const place: StrumPlace | undefined = here && { kind: "section", section: here.id };
    const isFirst = inForce() === undefined;
    edit([
      { kind: "strum", strum: { ...from, id } },
      ...(isFirst && place ? [{ kind: "strum-at", place, strum: id } as const] : []),
    ]);
    pick(id);
  };
  /** Sets a pattern for the section, as one step; one that the library has is not doubled. */
  const takeIdea = (from: StrumDraft) => {
    const here = section();
    if (here === undefined) return;
    const known = [...lane().strums.values()].find((strum) => isSameStrum(strum, from));
    const id = known?.id ?? strumId(session.makeId());
    edit([
      ...(known === undefined ? [{ kind: "strum", strum: { ...from, id } } as const] : []),
      { kind: "strum-at", place: { kind: "section", section: here.id }, strum: id },
    ]);
    pick(id);
  };
  return {
    inForce,
    shown,
    /** What the editor shows: the pattern, or an empty one that a first stroke makes real. */
    draft,
    pick,
    addStrum,
    hasRoomForStrum: () => lane().strums.size < strumsMax,
    barsWith: (strum: StrumId) => barsWith(session.board, lane(), strum),
    takeIdea,
    changeStrum: (change: Partial<StrumDraft>) => {
      const before = shown();
      if (before === undefined) addStrum({ ...draft(), ...change });
      else edit([{ kind: "strum", strum: { ...before, ...change } }]);
    },
    /** Gives this bar a copy of the pattern, to be changed on its own. */
    vary: (strum: Strum) => {
      const id = strumId(session.makeId());
      const name = playingWords.varied(strum.name);
      edit([
        { kind: "strum", strum: { ...strum, id, name } },
        { kind: "strum-at", place: { kind: "bar", bar: barId() }, strum: id },
      ]);
      pick(id);
    },
    setAt: (place: StrumPlace, strum: StrumId | undefined) =>
      edit([{ kind: "strum-at", place, strum }]),
    removeStrum: (strum: StrumId) => edit([{ kind: "strum-gone", strum }]),
  };
}

/** Whether two patterns play the same, whatever they are called. */
function isSameStrum(one: StrumDraft, other: StrumDraft): boolean {
  const isAlike =
    one.step === other.step && one.feel === other.feel && one.palmMute === other.palmMute;
  return isAlike && printSteps(one.steps) === printSteps(other.steps);
}

/** The fills that are heard in the bar, and the one that is open. */
function createFills(desk: Desk, { barId, lane, section, bar, edit }: Base) {
  const { session } = desk;
  const [openId, setOpenId] = createSignal<FillId>();
  const fills = createMemo(() => {
    const [inside, here] = [section(), bar()];
    return inside && here ? fillsReaching(lane().fills, inside, here) : [];
  });
  const openFill = createMemo((): Fill | undefined => {
    const all = fills().map(({ fill }) => fill);
    return all.find((fill) => fill.id === openId()) ?? all[0];
  });
  return {
    fills,
    openFill,
    pickFill: setOpenId,
    hasRoomForFill: () => lane().fills.size < fillsMax,
    addFill: () => {
      const here = bar();
      if (here === undefined) return;
      const id = fillId(session.makeId());
      const room = roomForFill(here.length, session.board.meter, fills());
      const fill: Fill = {
        ...{ id, bar: barId(), ...room, kind: "fill", together: false },
        notes: [],
      };
      edit([{ kind: "fill", fill }]);
      setOpenId(id);
    },
    changeFill: (fill: Fill) => edit([{ kind: "fill", fill }]),
    removeFill: (fill: FillId) => edit([{ kind: "fill-gone", fill }]),
    /** The bar in which a fill starts, and how much of its section is left from there. */
    placeOf: (fill: Fill): { readonly bar: Bar; readonly room: number } | undefined => {
      const bars = section()?.bars ?? [];
      const index = bars.findIndex((each) => each.id === fill.bar);
      const first = bars[index];
      if (first === undefined) return undefined;
      const left = bars.slice(index).reduce((sum, each) => sum + each.length, 0);
      return { bar: first, room: left - fill.start };
    },
  };
}
