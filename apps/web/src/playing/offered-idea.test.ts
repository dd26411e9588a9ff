/** An idea counts as offered for its own section and lane only. */
import { sectionId, strumId } from "@halflap/board/ids";
import type { Strum } from "@halflap/board/playing";
import type { LaneEdit, StrumPlace } from "@halflap/board/proposal";
import { parseStrumText } from "@halflap/board/strum-text";
import { ticks } from "@halflap/theory/units";
import { expect, test } from "vitest";
import { isOffered } from "./offered-idea.ts";

const [verse, chorus] = [sectionId("verse"), sectionId("chorus")];

function strumOf(id: string, text: string): Strum {
  const parsed = parseStrumText(text);
  if (!parsed.ok) throw new Error(`no strum: ${text}`);
  return {
    id: strumId(id),
    name: id,
    step: ticks(24),
    feel: "board",
    palmMute: false,
    steps: parsed.value,
  };
}

const idea = strumOf("idea", "D.DU.UDU");
const forVerse = { kind: "section", section: verse } as const;
const setAt = (place: StrumPlace, strum = idea): readonly LaneEdit[] => [
  { kind: "strum", strum },
  { kind: "strum-at", place, strum: strum.id },
];
const offered = (edits: readonly LaneEdit[], section = verse) =>
  isOffered([{ lane: "upper", edits }], "upper", section, strumOf("anew", "D.DU.UDU"));

test("what is offered for one section is not offered for another, nor for the other lane", () => {
  expect(offered(setAt(forVerse))).toBe(true);
  expect(offered(setAt(forVerse), chorus)).toBe(false);
  const proposal = { lane: "lower", edits: setAt(forVerse) } as const;
  expect(isOffered([proposal], "upper", verse, idea)).toBe(false);
});

test("the same strum offered for anything else is another offer", () => {
  expect(offered([{ kind: "strum", strum: idea }])).toBe(false);
  expect(offered(setAt({ kind: "lane" }))).toBe(false);
  const other = strumOf("other", "D.D.D.D.");
  expect(offered(setAt(forVerse, other))).toBe(false);
  expect(offered([{ kind: "strum", strum: idea }, ...setAt(forVerse, other)])).toBe(false);
});
