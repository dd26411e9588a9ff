/** R24: a fill under the voice, at and beside its limits. Limits ours. */
import type { SungNote } from "@halflap/board/singing";
import { midiNote, ticks } from "@halflap/theory/units";
import { expect, test } from "vitest";
import { check } from "../check.ts";
import { bars, type Played, smallBoard } from "../test-support/small-board.ts";
import type { SmallFill } from "../test-support/small-playing.ts";
import type { SmallPhrase } from "../test-support/small-singing.ts";

const bar: Played = ["C", "x-x-x-x-8-8", "x-3-2-0-x-x"];

function covering(fill: SmallFill, phrases: readonly SmallPhrase[]) {
  const fills = { upper: [fill] };
  return check(smallBoard({ sections: bars(bar, bar), fills, phrases })).filter(
    ({ rule }) => rule === "R24",
  );
}

const first = { bar: 1, beat: 1, beats: 2 };
const second = { bar: 2, beat: 1, beats: 2 };

test("R24 a fill under the voice is a fix that names its notes there", () => {
  const fill: SmallFill = {
    bar: 1,
    beat: 1,
    beats: 3,
    notes: [
      [1, "2:8"],
      [2, "1:8"],
    ],
  };
  expect(covering(fill, [first])).toMatchObject([
    {
      ...{ severity: "fix", measured: 2, threshold: 0.5, lanes: ["upper"] },
      notes: [{ lane: "upper", slot: "s1", pitch: 67 }],
      words: "The upper lane's fill runs two beats under the voice: leave it to a gap.",
    },
  ]);
});

test("R24 half a beat under the next phrase is nothing, more is a fix", () => {
  expect(covering({ bar: 1, beat: 4, beats: 1.5 }, [first, second])).toEqual([]);
  const longer = covering({ bar: 1, beat: 4, beats: 1.75 }, [first, second]);
  expect(longer).toMatchObject([{ severity: "fix", measured: 0.75 }]);
});

test("R24 a pick-up of half a beat into the gap is not counted, a longer one is, whole", () => {
  expect(covering({ bar: 1, beat: 2.5, beats: 3 }, [first, second])).toEqual([]);
  const early = covering({ bar: 1, beat: 2.25, beats: 3 }, [first, second]);
  expect(early).toMatchObject([{ measured: 1 }]);
});

function note(start: number, length: number): SungNote {
  return { start: ticks(start), length: ticks(length), pitch: midiNote(64) };
}

test("R24 under one held note it is a look; two beats are held, less is not", () => {
  const fill = { bar: 1, beat: 2, beats: 1 };
  const sung = (melody: readonly SungNote[]) => covering(fill, [{ ...first, beats: 4, melody }]);
  expect(sung([note(0, 96)])).toMatchObject([{ severity: "look" }]);
  expect(sung([note(0, 95)])).toMatchObject([{ severity: "fix" }]);
  expect(sung([note(0, 84), note(84, 96)])).toMatchObject([{ severity: "fix" }]);
});

test("R24 a pick-up before a held note leaves it a look", () => {
  const held = { bar: 1, beat: 3, beats: 4, melody: [note(0, 192)] };
  const fill = { bar: 1, beat: 2, beats: 3 };
  const looked = [{ severity: "look", measured: 2 }];
  expect(covering(fill, [{ bar: 1, beat: 1, beats: 1.5 }, held])).toMatchObject(looked);
  const early = covering(fill, [{ bar: 1, beat: 1, beats: 1.75 }, held]);
  expect(early).toMatchObject([{ severity: "fix", measured: 2.75 }]);
});

test("R24 not for lines, nor where nobody sings", () => {
  expect(covering({ bar: 1, beat: 1, beats: 2, kind: "line" }, [first])).toEqual([]);
  expect(covering({ bar: 1, beat: 1, beats: 2 }, [])).toEqual([]);
});
