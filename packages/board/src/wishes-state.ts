/** A lane's wishes once the repairs B26 to B28 of SPEC.md are made. */
import type { Grip } from "@halflap/theory/grip";
import type { StringNumber } from "@halflap/theory/tuning";
import { stringCount, stringNumbers } from "@halflap/theory/tuning";
import {
  type Fret,
  fret,
  fretMax,
  type MidiNote,
  midiNote,
  midiNoteMax,
} from "@halflap/theory/units";
import { isWhole } from "./decode.ts";
import { slotId } from "./ids.ts";
import type { LaneStore, Table } from "./lane-store.ts";
import { capoMax, stringSetsMax, wishedGripsMax } from "./limits.ts";
import { marked } from "./playing-state.ts";
import { type LaneWishes, usualWishes } from "./wishes.ts";

/** Reads any state of a lane's wishes; `slots` are those of the chart, in its order. */
export function readWishes(
  store: Pick<LaneStore, "wishes" | "likedGrips" | "neverGrips" | "lockedSlots">,
  slots: readonly string[],
  decodeGrip: (text: string) => Grip | undefined,
): LaneWishes {
  const { wishes } = store;
  return {
    leaveAsIs: truthOf(wishes.get("leaveAsIs")) ?? usualWishes.leaveAsIs,
    ...pitchBounds(wishes),
    stringSets: stringSetsOf(wishes.get("stringSets")),
    ...stringBounds(wishes),
    ...fretBounds(wishes),
    capo: fretIn(wishes.get("capo"), capoMax),
    rootless: truthOf(wishes.get("rootless")),
    openStrings: truthOf(wishes.get("openStrings")) ?? usualWishes.openStrings,
    keepTop: truthOf(wishes.get("keepTop")) ?? usualWishes.keepTop,
    liked: gripsIn(store.likedGrips, decodeGrip),
    never: gripsIn(store.neverGrips, decodeGrip),
    locked: marked(store.lockedSlots, slots, slotId),
  };
}

/** The strings of "4-3-2", each once and from the lowest on; undefined for any other text. */
export function stringSetOf(text: string): readonly StringNumber[] | undefined {
  const fields = text.split("-");
  const strings = stringNumbers.filter((string) => fields.includes(String(string)));
  return strings.length > 0 && strings.join("-") === text ? strings : undefined;
}

function truthOf(value: unknown): boolean | undefined {
  return typeof value === "boolean" ? value : undefined;
}

function fretIn(value: unknown, most: number): Fret | undefined {
  return isWhole(value, 0, most) ? fret(value) : undefined;
}

function pitchIn(value: unknown): MidiNote | undefined {
  return isWhole(value, 0, midiNoteMax) ? midiNote(value) : undefined;
}

/** B27: bounds that leave nothing between them count as not set. */
function pitchBounds(wishes: Table): Pick<LaneWishes, "lowest" | "highest"> {
  const [lowest, highest] = [pitchIn(wishes.get("lowest")), pitchIn(wishes.get("highest"))];
  return areApart(lowest, highest)
    ? { lowest: usualWishes.lowest, highest: usualWishes.highest }
    : { lowest, highest };
}

function fretBounds(wishes: Table): Pick<LaneWishes, "lowestFret" | "highestFret"> {
  const lowestFret = fretIn(wishes.get("lowestFret"), fretMax);
  const highestFret = fretIn(wishes.get("highestFret"), fretMax);
  return areApart(lowestFret, highestFret)
    ? { lowestFret: usualWishes.lowestFret, highestFret: usualWishes.highestFret }
    : { lowestFret, highestFret };
}

function stringBounds(wishes: Table): Pick<LaneWishes, "stringsMin" | "stringsMax"> {
  const [min, max] = [wishes.get("stringsMin"), wishes.get("stringsMax")];
  const stringsMin = isWhole(min, 1, stringCount) ? min : usualWishes.stringsMin;
  const stringsMax = isWhole(max, 1, stringCount) ? max : usualWishes.stringsMax;
  return areApart(stringsMin, stringsMax)
    ? { stringsMin: usualWishes.stringsMin, stringsMax: usualWishes.stringsMax }
    : { stringsMin, stringsMax };
}

function areApart(least: number | undefined, most: number | undefined): boolean {
  return least !== undefined && most !== undefined && least > most;
}

/** B26: what is no set of strings is left out; each set counts the first time it stands. */
function stringSetsOf(value: unknown): LaneWishes["stringSets"] {
  if (!Array.isArray(value)) return usualWishes.stringSets;
  const texts = new Set<unknown>(value);
  return [...texts]
    .flatMap((text) => {
      const strings = typeof text === "string" ? stringSetOf(text) : undefined;
      return strings === undefined ? [] : [strings];
    })
    .slice(0, stringSetsMax);
}

/** B28: grips by their text. */
function gripsIn(table: Table, decodeGrip: (text: string) => Grip | undefined): readonly Grip[] {
  const grips: Grip[] = [];
  for (const text of [...table.keys()].sort()) {
    const grip = table.get(text) === true ? decodeGrip(text) : undefined;
    if (grip !== undefined && grips.length < wishedGripsMax) grips.push(grip);
  }
  return grips;
}
