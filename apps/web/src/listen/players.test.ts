/** Leaving oneself out, or all others, and what is kept while doing so. */
import { usualMix } from "@halflap/sound/mix";
import { expect, test } from "vitest";
import { companyOf, inCompany, isAlone, withAlone, withBothLanes, withHeardOf } from "./players.ts";

const heard = (mix: typeof usualMix) =>
  (["upper", "lower", "bass", "drums"] as const).filter((part) => !mix[part].isMuted);

test("each company silences whom it says, and is known again by it", () => {
  expect(heard(inCompany(usualMix, "without-me", "lower"))).toEqual(["upper", "bass", "drums"]);
  expect(heard(inCompany(usualMix, "only-me", "upper"))).toEqual(["upper"]);
  for (const company of ["all", "without-me", "only-me"] as const) {
    for (const own of ["upper", "lower"] as const) {
      expect(companyOf(inCompany(usualMix, company, own), own)).toBe(company);
    }
  }
});

test("levels, the click and the count-in are kept", () => {
  const mix = { ...usualMix, click: { level: 0.3, isMuted: false } };
  const alone = inCompany(mix, "only-me", "lower");
  expect(alone.click).toEqual({ level: 0.3, isMuted: false });
  expect(alone["count-in"]).toEqual(usualMix["count-in"]);
  expect(alone.drums.level).toBe(usualMix.drums.level);
});

test("any other choice has no name", () => {
  const mix = { ...usualMix, drums: { level: 1, isMuted: true } };
  expect(companyOf(mix, "lower")).toBeUndefined();
});

test("one part alone, and all who were heard before it back again", () => {
  const mix = { ...usualMix, bass: { level: 0.5, isMuted: true } };
  const drums = withAlone(mix, "drums");
  expect(heard(drums)).toEqual(["drums"]);
  expect([isAlone(drums, "drums"), isAlone(drums, "bass"), isAlone(mix, "drums")]).toEqual([
    true,
    false,
    false,
  ]);
  expect(heard(withAlone(drums, "click"))).toEqual([]);
  expect(isAlone(withAlone(drums, "click"), "click")).toBe(true);
  expect(withHeardOf(drums, mix)).toEqual(mix);
});

test("what is tried is heard in both lanes, whoever is left out of the tune", () => {
  const tried = withBothLanes(inCompany(usualMix, "without-me", "lower"));
  expect(heard(tried)).toEqual(["upper", "lower", "bass", "drums"]);
});
