/** How each lane gets from slot to slot through the form, and what its steps may know. */
import { type Board, type LaneId, laneIds, type SlotId } from "@halflap/board/board";
import type { RuleId } from "@halflap/checker/finding";
import { type HandMove, movesFrom } from "@halflap/checker/hand-moves";
import { voicedStretches } from "@halflap/checker/sung";
import { soundingChord } from "@halflap/checker/tune";
import type { SoundingChord } from "@halflap/theory/chord";
import type { Sung } from "@halflap/timeline/timeline";
import type { Played } from "./played.ts";

/** One way from the grip of a slot straight to that of another. */
export type StepKind = {
  /** From the last stroke of the one to the first of the other, in ticks. */
  readonly time: number;
  /** Both lie in one passage: R17. */
  readonly isWithin: boolean;
  /** In one breath of the lane's own singer: R28. */
  readonly isSung: boolean;
  /** Soft enough for R31. */
  readonly isQuiet: boolean;
  /** What rings of open strings: R32. */
  readonly rings: "cut" | "on" | "meant";
  /** What sounds where it arrives; undefined without a chord. */
  readonly chord: SoundingChord | undefined;
  /** The symbols differ. */
  readonly isChange: boolean;
  readonly silenced: ReadonlySet<string>;
};

/** A kind with how often it is taken, and a name that is equal for equal kinds. */
export type TimedStep = { readonly kind: StepKind; readonly times: number; readonly key: string };

/** A note of a fill or line beside a grip: the hand comes from it, or goes on to it. */
export type LineMove = {
  readonly lane: LaneId;
  readonly slot: SlotId;
  /** The hold of the move that is the grip. */
  readonly side: "from" | "to";
  readonly move: HandMove;
  readonly times: number;
  readonly isSilenced: boolean;
};

/** All ways between two slots, by lane; a lane that takes none has an empty list. */
export type SlotLink = {
  readonly from: SlotId;
  readonly to: SlotId;
  readonly lanes: Readonly<Record<LaneId, readonly TimedStep[]>>;
};

export type MovesPlayed = {
  readonly links: readonly SlotLink[];
  readonly lines: readonly LineMove[];
};

const rules: readonly RuleId[] = ["R17", "R28", "R29", "R31", "R32"];

/** Every move of the form as it is played, each different one once with its times. */
export function movesPlayed(board: Board, played: Played): MovesPlayed {
  const links = new Map<string, { from: SlotId; to: SlotId; lanes: Record<LaneId, TimedStep[]> }>();
  const lines: LineMove[] = [];
  for (const step of played.steps) {
    const ahead = step.next === undefined ? [] : [step.next];
    for (const lane of laneIds) {
      for (const move of movesFrom(step.bar, ahead, lane, played.tune.setups)) {
        const silenced = silencedIn(board, step, move);
        if (move.from.kind === "grip" && move.to.kind === "grip") {
          // A push strikes the grip of the next bar early: the hand is there already.
          if (move.from.slot === move.to.slot) continue;
          const kind = kindOf(step, move, lane, silenced);
          const name = `${move.from.slot} ${move.to.slot}`;
          const fresh = { from: move.from.slot, to: move.to.slot, lanes: { upper: [], lower: [] } };
          const link = links.get(name) ?? fresh;
          links.set(name, link);
          addTo(link.lanes[lane], kind, step.times);
        } else if (move.from.kind !== move.to.kind) {
          const side = move.from.kind === "grip" ? "from" : "to";
          const isSilenced = silenced.has("R29");
          const { times } = step;
          lines.push({ lane, slot: move[side].slot, side, move, times, isSilenced });
        }
      }
    }
  }
  return { links: [...links.values()], lines };
}

type TakenStep = Played["steps"][number];

/** Past a seam a finding stands in the bar before it alone. */
function silencedIn(board: Board, { bar }: TakenStep, move: HandMove): ReadonlySet<string> {
  if (board.silences.length === 0) return none;
  const bars = [bar.played.bar.id, ...(move.isWithin ? [move.bar.played.bar.id] : [])];
  const silent = rules.filter((rule) =>
    bars.every((id) => board.silences.some((one) => one.rule === rule && one.bars.includes(id))),
  );
  return new Set(silent);
}

const none: ReadonlySet<string> = new Set();

function kindOf(
  { bar, passage }: TakenStep,
  move: HandMove,
  lane: LaneId,
  silenced: ReadonlySet<string>,
): StepKind {
  const { from, to } = move;
  const arrival = move.bar.segments.find(({ slot }) => slot.id === to.slot);
  const departure = bar.segments.find(({ slot }) => slot.id === from.slot);
  const loudness = move.bar.played.lanes[lane].dynamic;
  const start = bar.played.start + from.last;
  const end = bar.played.start + move.end;
  return {
    time: move.end - move.start,
    isWithin: move.isWithin,
    isSung: move.isWithin && isSung(passage.passage.sung, lane, start, end),
    isQuiet: (loudness === "p" || loudness === "pp") && !from.isCut,
    rings: from.isCut || from.palmMuted ? "cut" : from.letRing ? "meant" : "on",
    chord: arrival && soundingChord(arrival),
    isChange: arrival?.slot.text !== departure?.slot.text,
    silenced,
  };
}

const ownSung = new WeakMap<readonly Sung[], Map<LaneId, readonly Sung[]>>();

/** Whether the lane's own player sings through from one stroke to the next. */
function isSung(sung: readonly Sung[], lane: LaneId, start: number, end: number): boolean {
  if (sung.length === 0) return false;
  const byLane = ownSung.get(sung) ?? new Map<LaneId, readonly Sung[]>();
  ownSung.set(sung, byLane);
  const own = byLane.get(lane) ?? sung.filter(({ voice }) => voice?.lane === lane);
  byLane.set(lane, own);
  return voicedStretches(own).some((stretch) => stretch.start <= start && end < stretch.end);
}

function addTo(known: TimedStep[], kind: StepKind, times: number): void {
  const { chord, silenced, ...rest } = kind;
  const key = JSON.stringify([chord?.symbol, [...silenced], rest]);
  const same = known.findIndex((each) => each.key === key);
  const before = known[same];
  if (before === undefined) known.push({ kind, times, key });
  else known[same] = { ...before, times: before.times + times };
}
