/** How much findings weigh, and what became of them. */
import { barId, slotId } from "@halflap/board/ids";
import { ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import type { Finding } from "../finding.ts";
import { differenceOf, stands, totalOf } from "./weights.ts";

function finding(more: Partial<Finding> & { readonly at?: readonly number[] }): Finding {
  const bars = (more.at ?? [1]).map((number) => barId(`b${number}`));
  return {
    id: "R01:upper+lower:s1",
    rule: "R01",
    severity: "fix",
    isPraise: false,
    lanes: ["upper", "lower"],
    bars,
    slots: bars.map((bar) => slotId(bar)),
    spans: bars.map((bar) => ({ bar, start: ticks(0), end: ticks(192) })),
    notes: [],
    measured: 1,
    threshold: 1,
    unit: "share",
    words: "A sentence.",
    silenced: undefined,
    ...more,
  };
}

describe("O2 the total", () => {
  test("weighs a stop 100, a fix 20, a look 4, a note 1", () => {
    const all = (["stop", "fix", "look", "note"] as const).map((severity) => finding({ severity }));
    expect(totalOf(all)).toBe(125);
  });

  test("counts neither praise nor what is silenced", () => {
    expect(totalOf([finding({ isPraise: true }), finding({ silenced: "we like it" })])).toBe(0);
  });
});

test("O2 O5 what is rough beside the rest of the tune neither weighs nor comes and goes", () => {
  const rough = finding({ rule: "R12", severity: "note" });
  expect(totalOf([rough])).toBe(0);
  expect(differenceOf([rough], [])).toEqual({ removes: [], causes: [] });
  expect(differenceOf([], [rough])).toEqual({ removes: [], causes: [] });
});

describe("O5 what became of findings", () => {
  const run = finding({ at: [1, 2, 3] });

  test("a trouble that goes on in some of its bars is neither gone nor new", () => {
    expect(differenceOf([run], [finding({ at: [2, 3] })])).toEqual({ removes: [], causes: [] });
  });

  test("in other bars, of another rule, or of other lanes it is another", () => {
    for (const other of [
      finding({ at: [4] }),
      finding({ at: [1, 2, 3], rule: "R02" }),
      finding({ at: [1, 2, 3], lanes: ["upper"] }),
    ]) {
      expect(differenceOf([run], [other])).toEqual({ removes: [run], causes: [other] });
    }
  });

  test("less grave is gone and come back milder", () => {
    const look = finding({ at: [1, 2, 3], severity: "look" });
    expect(differenceOf([run], [look])).toEqual({ removes: [run], causes: [look] });
    expect(stands(run, [look])).toBe(false);
    expect(stands(look, [run])).toBe(true);
  });

  test("at other beats of the same bar it is another", () => {
    const early = finding({ spans: [{ bar: barId("b1"), start: ticks(0), end: ticks(48) }] });
    const late = finding({ spans: [{ bar: barId("b1"), start: ticks(96), end: ticks(192) }] });
    expect(stands(early, [late])).toBe(false);
    expect(differenceOf([early], [late]).causes).toEqual([late]);
  });
});
