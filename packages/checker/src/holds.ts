/** What the fretting hand holds in a bar, one hold after another, and when it is struck. */
import type { SlotId } from "@halflap/board/board";
import type { GripNote } from "@halflap/theory/grip";
import { neckFret, type Setup } from "@halflap/theory/tuning";
import { type Fret, fret, type Ticks } from "@halflap/theory/units";
import type { Attack, LaneBar } from "@halflap/timeline/timeline";

/** A grip for as long as it is struck, or one note (or double stop) of a fill or line. */
export type Hold = {
  readonly kind: "grip" | "line";
  /** The slot whose grip it is, or in which the note falls. */
  readonly slot: SlotId;
  /** The first and the last time it is struck, as heard from the start of the bar. */
  readonly first: Ticks;
  readonly last: Ticks;
  /** What is struck, open strings too, from string 6 to 1. */
  readonly notes: readonly GripNote[];
  /** The neck frets that fingers stop; undefined when no string is stopped. */
  readonly stopped: { readonly lowest: Fret; readonly highest: Fret } | undefined;
  /** How long the last attack is written to last; undefined for a grip, which rings on. */
  readonly length: Ticks | undefined;
  /** The finger slides into it from the note before. */
  readonly slides: boolean;
  /** It is to ring on. */
  readonly letRing: boolean;
  readonly palmMuted: boolean;
  /** The strings are stopped, or a ghost stroke falls, before the next hold. */
  readonly isCut: boolean;
};

const known = new WeakMap<LaneBar, readonly Hold[]>();

/** The holds of a lane's bar in the order played; a lane bar is made anew with another setup. */
export function holdsOf(laneBar: LaneBar, setup: Setup): readonly Hold[] {
  let holds = known.get(laneBar);
  if (holds === undefined) {
    holds = made(laneBar, setup);
    known.set(laneBar, holds);
  }
  return holds;
}

/** While it is made: a grip is struck again and again, and copies of it would cost the most. */
type Growing = { -readonly [Field in keyof Hold]: Hold[Field] };

function made(laneBar: LaneBar, setup: Setup): readonly Hold[] {
  const holds: Growing[] = [];
  for (const attack of laneBar.attacks) {
    const last = holds.at(-1);
    if (attack.notes.length === 0) {
      if (last !== undefined && attack.kind === "stroke") last.isCut = true; // a ghost
    } else if (last !== undefined && isSameHold(last, attack)) {
      goOn(last, attack, setup);
    } else {
      holds.push(holdOf(attack, laneBar, setup));
    }
  }
  if (laneBar.chokes.length === 0) return holds;
  return holds.map((hold, index) => {
    const next = holds[index + 1]?.first ?? laneBar.bar.length;
    const isChoked = laneBar.chokes.some((choke) => choke >= hold.last && choke < next);
    return isChoked ? { ...hold, isCut: true } : hold;
  });
}

function holdOf(attack: Attack, laneBar: LaneBar, setup: Setup): Hold {
  const { slot, sounds, notes } = attack;
  const shared = { slot, first: sounds, last: sounds, notes, stopped: stoppedBy(notes, setup) };
  if (attack.kind === "stroke") {
    const palmMuted = laneBar.palmMute || (attack.strum?.palmMute ?? false);
    const { letRing } = laneBar;
    const rings = { length: undefined, slides: false, letRing, palmMuted, isCut: false };
    return { kind: "grip", ...shared, ...rings };
  }
  const { way, length, letRing } = attack.note;
  return {
    kind: "line",
    ...shared,
    length,
    slides: way === "slide",
    letRing: letRing || laneBar.letRing,
    palmMuted: laneBar.palmMute,
    isCut: false,
  };
}

/** The lowest and the highest fret that fingers stop; undefined where all are open. */
export function stoppedBy(notes: readonly GripNote[], setup: Setup): Hold["stopped"] {
  let lowest: Fret | undefined;
  let highest: Fret | undefined;
  for (const note of notes) {
    const place = neckFret(setup, note.fret);
    if (place === undefined || place <= setup.capo) continue;
    if (lowest === undefined || place < lowest) lowest = place;
    if (highest === undefined || place > highest) highest = place;
  }
  return lowest === undefined || highest === undefined ? undefined : { lowest, highest };
}

/** A grip struck again, or another note of a double stop. */
function isSameHold(hold: Hold, attack: Attack): boolean {
  if (attack.kind === "stroke") return hold.kind === "grip" && hold.slot === attack.slot;
  return hold.kind === "line" && hold.last === attack.sounds;
}

function goOn(hold: Growing, attack: Attack, setup: Setup): void {
  if (attack.kind === "stroke") {
    hold.last = attack.sounds;
    hold.isCut = false;
    return;
  }
  const [one, other] = [hold.stopped, stoppedBy(attack.notes, setup)];
  hold.notes = [...hold.notes, ...attack.notes];
  hold.stopped = one === undefined || other === undefined ? (one ?? other) : union(one, other);
  hold.slides ||= attack.note.way === "slide";
  hold.letRing ||= attack.note.letRing;
}

type Stopped = NonNullable<Hold["stopped"]>;

/** All frets from the lowest to the highest of both. */
function union(one: Stopped, other: Stopped): Stopped {
  return {
    lowest: fret(Math.min(one.lowest, other.lowest)),
    highest: fret(Math.max(one.highest, other.highest)),
  };
}
