/** Writing a pattern by presses and keys, and on steps of another length. */
import { parseStrumText, printSteps } from "@halflap/board/strum-text";
import { ticks } from "@halflap/theory/units";
import { describe, expect, test } from "vitest";
import { beatGroups, blankStrum, marked, onSteps, pressed, stepKey } from "./step-grid.ts";

const common = { beats: 4, unit: 4 } as const;
const sixEight = { beats: 6, unit: 8 } as const;

function steps(text: string) {
  const read = parseStrumText(text);
  if (!read.ok) throw new Error(read.error.words);
  return read.value;
}
const one = (text: string) => steps(text)[0] ?? { kind: "rest" as const };
const press = (key: string) => ({ key, ctrlKey: false, metaKey: false, altKey: false });

/** The pattern after keys typed from its first step on, each where the last one left. */
function typed(keys: string, text = "........"): string {
  let [now, at] = [steps(text), 0];
  for (const key of keys) {
    const act = stepKey(press(key), { step: ticks(24), steps: now }, at, common);
    if (act?.kind !== "put") continue;
    const put = act.step;
    now = now.map((each, index) => (index === at ? put : each));
    if (act.goesOn) at++;
  }
  return printSteps(now);
}

describe("a press", () => {
  test("goes round nothing, down, up", () => {
    const round = [one("."), one("D"), one("U"), one(".")];
    for (const [index, step] of round.slice(0, 3).entries()) {
      expect(pressed(step)).toEqual(round[index + 1]);
    }
    expect(printSteps([pressed(one("x")), pressed(one(">D"))])).toBe("D>U");
  });

  test("on a mark puts it on and takes it off; a ghost is never early", () => {
    const marks = ["accent", "ghost", "choke", "push"] as const;
    expect(printSteps(marks.map((mark) => marked(one("D"), mark, true)))).toBe(">Ddx~D");
    expect(printSteps(marks.map((mark) => marked(one("."), mark, false)))).toBe(">Uux~U");
    expect(printSteps([marked(one("x"), "choke", true)])).toBe(".");
    expect(printSteps([marked(one("~D"), "ghost", true), marked(one("d"), "push", true)])).toBe(
      "d~D",
    );
  });
});

describe("keys", () => {
  test("write step by step and go on", () => {
    expect(typed("d.dux.du")).toBe("D.DUx.DU");
    expect(typed(">d~ug.d")).toBe(">D~U.D....");
  });

  test("marks stay on their step; other keys are left alone", () => {
    expect(typed(">")).toBe(">D.......");
    expect(typed("gg", "D.......")).toBe("D.......");
    const strum = { step: ticks(24), steps: steps("D.D.") };
    expect(stepKey(press("n"), strum, 0, common)).toBeUndefined();
    expect(stepKey({ ...press("d"), ctrlKey: true }, strum, 0, common)).toBeUndefined();
    expect(stepKey(press("End"), strum, 0, common)).toEqual({ kind: "walk", to: 3 });
    expect(stepKey(press("ArrowLeft"), strum, 0, common)).toEqual({ kind: "walk", to: 0 });
  });
});

describe("steps of another length", () => {
  const eighths = { step: ticks(24), steps: steps("D.DU.UDU") };

  test("keep each stroke at its time", () => {
    expect(printSteps(onSteps(eighths, ticks(12)))).toBe("D...D.U...U.D.U.");
    expect(
      printSteps(onSteps({ step: ticks(12), steps: onSteps(eighths, ticks(12)) }, ticks(24))),
    ).toBe("D.DU.UDU");
  });

  test("lose the later of two that meet, never the length", () => {
    expect(onSteps(eighths, ticks(48))).toHaveLength(4);
    expect(onSteps(eighths, ticks(192))).toHaveLength(1);
    expect(onSteps({ step: ticks(6), steps: steps("D".repeat(96)) }, ticks(6))).toHaveLength(96);
  });
});

test("a blank pattern fills a bar, and its beats hang together", () => {
  expect(blankStrum(common).steps).toHaveLength(8);
  expect(blankStrum(sixEight).steps).toHaveLength(6);
  expect(blankStrum({ beats: 3, unit: 16 }).steps).toHaveLength(3);
  expect(beatGroups(blankStrum(sixEight), sixEight)).toEqual([
    [0, 1, 2],
    [3, 4, 5],
  ]);
  expect(beatGroups({ step: ticks(96), steps: steps("DD") }, common)).toEqual([[0], [1]]);
});
