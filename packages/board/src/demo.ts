/**
 * The demo tune, "Paper Ferry Home", twice: as two guitarists first bring it, and as they make it
 * fit.
 */
import { parseKey } from "@halflap/theory/key";
import { defaultSetup } from "@halflap/theory/tuning";
import { assert, ticks, ticksPerQuarter } from "@halflap/theory/units";
import { type BoardCopy, copyFormat, copyVersion, type LaneCopy } from "./copy.ts";
import {
  draftParts,
  type FillPart,
  type LanePart,
  solutionParts,
  type WrittenSection,
} from "./demo-parts.ts";
import { parseFillText } from "./fill-text.ts";
import { plainLane } from "./lane-copy.ts";
import { barLengthOf, commonTime } from "./meter.ts";
import type { FillCopy } from "./playing-shape.ts";
import { plainSong, type SongCopy, unsaidSettings } from "./song-shape.ts";

const chart: Readonly<Record<WrittenSection, string>> = {
  intro: "F7 | Bb7 | G7 | C7",
  verse: "F7 | F7 D7 | Gm7 | Gm7 C7 | F7 | A7 | Dm7 G7 | C7",
  chorus: "Bb7 | Bdim7 | F7/C | D7 | G7 | C7 | F7 Bb7 | F7 C7",
  tag: "G7 | C7 | F7 | F7",
};
const order = ["intro", "verse", "chorus", "solo", "tag"] as const;
const names = { intro: "Intro", verse: "Verse", chorus: "Chorus", solo: "Solo", tag: "Tag" };
const form = ["intro", "verse", "chorus", "verse", "chorus", "solo", "chorus", "tag"] as const;
const lastBar = "tag-4";

/** C3 to F4, as MIDI notes. */
const sungRange = { low: 48, high: 65 };
/** Where the verse is sung: its bar, and for how many quarters from the bar's start. */
const sung: readonly (readonly [number, number])[] = [
  [1, 6],
  [3, 6],
  [5, 6],
  [7, 5],
];
/** Whose gap it is once the parts fit: bar and beat. */
const gaps: readonly (readonly [number, number, "upper" | "lower"])[] = [
  [2, 3, "upper"],
  [4, 3, "lower"],
  [6, 3, "upper"],
  [8, 2, "lower"],
];

/** Two parts made apart from each other: the same register, the same notes, the same rhythm. */
export function demoDraft(): BoardCopy {
  const upper = { ...laneOf(draftParts.upper), capo: 3, fretsFrom: "capo" } as const;
  const lanes = { upper, lower: laneOf(draftParts.lower) };
  return tune("Paper Ferry Home (first draft)", song(), lanes);
}

/** The same tune once the two parts lie flush. */
export function demoSolution(): BoardCopy {
  const owned = gaps.map(([bar, beat, owner]) => {
    return [
      `gap-${bar}`,
      { bar: `verse-${bar}`, at: (beat - 1) * ticksPerQuarter, owner },
    ] as const;
  });
  const lanes = { upper: laneOf(solutionParts.upper), lower: laneOf(solutionParts.lower) };
  return tune("Paper Ferry Home", { ...song(), gapOwners: Object.fromEntries(owned) }, lanes);
}

function tune(title: string, sung: SongCopy, lanes: BoardCopy["lanes"]): BoardCopy {
  const key = parseKey("F");
  assert(key.ok, "F is a key");
  return {
    format: copyFormat,
    version: copyVersion,
    title,
    key: key.value,
    tempo: 104,
    meter: commonTime,
    feel: "straight",
    hasBass: true,
    ...unsaidSettings,
    ending: "stop on 1, let ring",
    sections: order.map((id) =>
      id === "solo"
        ? { id, name: names[id], borrows: "verse", bars: [] }
        : { id, name: names[id], bars: barsOf(id) },
    ),
    form: form.map((section, i) => ({ id: `form-${i + 1}`, section, times: 1 })),
    silences: [],
    setAside: { bars: [], slots: [] },
    ...sung,
    lanes,
  };
}

/** The low guitar sings the verses, the drummer the choruses; nobody sings the solo. */
function song(): SongCopy {
  const phrases = sung.map(([bar, quarters]) => {
    const length = quarters * ticksPerQuarter;
    return [`sung-${bar}`, { bar: `verse-${bar}`, start: 0, length, melody: [] }] as const;
  });
  const singers = form.flatMap((section, i) => {
    const voice = section === "verse" ? "low-guitar" : "drummer";
    return section === "verse" || section === "chorus" ? [[`form-${i + 1}`, [voice]] as const] : [];
  });
  return {
    ...plainSong(),
    voices: {
      "low-guitar": { name: "Low guitar", lane: "lower", ...sungRange },
      drummer: { name: "Drummer" },
    },
    phrases: Object.fromEntries(phrases),
    singers: Object.fromEntries(singers),
    aims: { [lastBar]: ["stop"] },
  };
}

/** Bars `verse-1`, `verse-2`; slots `verse-2-1`, `verse-2-2`. */
function barsOf(section: WrittenSection): BoardCopy["sections"][number]["bars"] {
  return chart[section].split(" | ").map((bar, i) => {
    const id = `${section}-${i + 1}`;
    const chords = bar.split(" ");
    const share = barLengthOf(commonTime) / chords.length;
    const slots = chords.map((chord, j) => ({ id: `${id}-${j + 1}`, at: j * share, chord }));
    return { id, slots };
  });
}

/** The solo plays the verse's chords with the verse's grips, strum pattern and fills. */
function laneOf(lane: LanePart): LaneCopy {
  const grips: [string, string][] = [];
  const chosenFor: [string, string][] = [];
  const fills: [string, FillCopy][] = [];
  const strumSections: [string, string][] = [];
  for (const section of order) {
    const [source, prefix] = section === "solo" ? (["verse", "solo~"] as const) : [section, ""];
    const part = lane[source];
    const slots = barsOf(source).flatMap((bar) => bar.slots);
    const written = part.grips.split(/\s+/).filter((grip) => grip !== "");
    assert(written.length === 0 || written.length === slots.length, "a grip for each slot");
    for (const [i, grip] of written.entries()) {
      const id = `${prefix}${slots[i]?.id}`;
      grips.push([id, grip]);
      chosenFor.push([id, slots[i]?.chord ?? ""]);
    }
    if (part.strum !== undefined) strumSections.push([section, part.strum]);
    for (const [number, fill] of Object.entries(part.fills)) {
      fills.push([`${section}-fill-${number}`, fillOf(`${prefix}${source}-${number}`, fill)]);
    }
  }
  const strums = Object.entries(lane.strums).map(
    ([id, strum]) => [id, { ...strum, feel: "board" }] as const,
  );
  return {
    ...plainLane(),
    grips: Object.fromEntries(grips),
    chosenFor: Object.fromEntries(chosenFor),
    strums: Object.fromEntries(strums),
    strumSections: Object.fromEntries(strumSections),
    strumBars: { [lastBar]: "stop" },
    fills: Object.fromEntries(fills),
    letRings: [lastBar],
  };
}

function fillOf(bar: string, { from, to, notes, kind }: FillPart): FillCopy {
  const start = ticks((from - 1) * ticksPerQuarter);
  const length = ticks((to - from) * ticksPerQuarter);
  const stretch = { start, length, beat: ticks(ticksPerQuarter) };
  const read = parseFillText(notes, stretch, defaultSetup);
  assert(read.ok, "the demo's fills can be read");
  return { bar, start, length, kind, together: false, notes: read.value };
}
