/** The checker's limits as the dialog shows them: by what they are about, in figures to type. */
import type { RuleId } from "@halflap/checker/finding";
import { type LimitName, limitNames, limitTable } from "@halflap/checker/thresholds";
import type { LimitGroupName } from "../words/limits.ts";

/** A rule with its limits, in the order of the table. */
export type RuleLimits = { readonly rule: RuleId; readonly limits: readonly LimitName[] };
export type LimitGroup = { readonly name: LimitGroupName; readonly rules: readonly RuleLimits[] };

const order: readonly (readonly [LimitGroupName, readonly RuleId[]])[] = [
  ["register", ["R01", "R16"]],
  ["doubling", ["R02", "R03", "R04", "R05", "R06"]],
  ["chord", ["R07", "R13", "R10", "R11", "R12", "R14", "R36"]],
  ["low", ["R08", "R09"]],
  ["rhythm", ["R18", "R19", "R20", "R21", "R22"]],
  ["fills", ["R23", "R24", "R25", "R26"]],
  ["voice", ["R27", "R28"]],
  ["hand", ["R29", "R30", "R31", "R32", "R15", "R17"]],
  ["whole", ["R33", "R34"]],
];

/** Every group that has a limit, with its rules that have one. */
export const limitGroups: readonly LimitGroup[] = order.flatMap(([name, ids]) => {
  const rules = ids.flatMap((rule): readonly RuleLimits[] => {
    const limits = limitNames.filter((each) => limitTable[each].rule === rule);
    return limits.length > 0 ? [{ rule, limits }] : [];
  });
  return rules.length > 0 ? [{ name, rules }] : [];
});

/** How a limit is typed: shares in per cent, all else as it is. */
export type LimitFigure = {
  readonly value: number;
  readonly least: number;
  readonly most: number;
  readonly unit: string;
};

/** The figure of a limit with a value. */
export function limitFigure(name: LimitName, value: number): LimitFigure {
  const { least, most, unit } = limitTable[name];
  const by = factorOf(name);
  const shown = (each: number) => Math.round(each * by * 100) / 100;
  return {
    value: shown(value),
    least: shown(least),
    most: shown(most),
    unit: by === 1 ? unit : "%",
  };
}

/**
 * The value that a typed figure sets, brought into the limit's range; undefined when it is the
 * one the limit comes with. NaN leaves nothing to set.
 */
export function typedLimit(
  name: LimitName,
  typed: number,
): { readonly set: number | undefined } | undefined {
  if (Number.isNaN(typed)) return undefined;
  const { least, most, value } = limitTable[name];
  if (typed === limitFigure(name, value).value) return { set: undefined };
  return { set: Math.min(most, Math.max(least, typed / factorOf(name))) };
}

function factorOf(name: LimitName): 1 | 100 {
  return limitTable[name].unit === "share" ? 100 : 1;
}
