/** The usual shortcuts on an open chain: a beam, and one lane after the other. */
import { type Choice, costOf, type Lattice } from "@halflap/fitter/lattice";
import type { MinPlus } from "@halflap/fitter/min-plus";
import { solve } from "@halflap/fitter/solve";

/** What the best of `width` beginnings costs, kept at each place, in steps. */
export function beamCost({ places, links }: Lattice, width: number): number {
  let beam: readonly Beginning[] = [{ upper: 0, lower: 0, cost: 0 }];
  for (const [index, place] of places.entries()) {
    const link = links[index - 1];
    const best = new Float64Array(place.pairs.length).fill(Number.POSITIVE_INFINITY);
    for (const from of beam) {
      for (let upper = 0; upper < place.upper; upper += 1) {
        const above = from.cost + (link?.upper?.[from.upper * place.upper + upper] ?? 0);
        for (let lower = 0; lower < place.lower; lower += 1) {
          const below = link?.lower?.[from.lower * place.lower + lower] ?? 0;
          const at = upper * place.lower + lower;
          best[at] = Math.min(best[at] ?? 0, above + below + (place.pairs[at] ?? 0));
        }
      }
    }
    beam = [...best.keys()]
      .sort((a, b) => (best[a] ?? 0) - (best[b] ?? 0) || a - b)
      .slice(0, width)
      .map((at) => ({
        upper: Math.floor(at / place.lower),
        lower: at % place.lower,
        cost: best[at] ?? 0,
      }));
  }
  return Math.min(...beam.map(({ cost }) => cost));
}

type Beginning = { readonly upper: number; readonly lower: number; readonly cost: number };

/** What comes of fitting the upper lane as if alone, then each around the other until both rest. */
export function costInTurn(tune: Lattice, minPlus: MinPlus): number {
  let choice = aloneAbove(tune, minPlus);
  let cost = Number.POSITIVE_INFINITY;
  for (let turn = 0; ; turn += 1) {
    const moving = turn % 2 === 0 ? "lower" : "upper";
    const found = solve(tune, { minPlus, allowed: heldBut(choice, moving) });
    if (found === undefined || found.cost >= cost) return Math.min(cost, costOf(tune, choice));
    ({ choice, cost } = found);
  }
}

function aloneAbove({ places, links }: Lattice, minPlus: MinPlus): Choice {
  const alone = places.map(({ upper, lower, pairs }) => ({
    ...{ upper, lower: 1 },
    pairs: Uint16Array.from({ length: upper }, (_, state) =>
      pairs.subarray(state * lower, (state + 1) * lower).reduce((a, b) => Math.min(a, b)),
    ),
  }));
  const found = solve(
    { places: alone, links: links.map((link) => ({ ...link, lower: undefined })) },
    { minPlus },
  );
  if (found === undefined) throw new Error("a tune without a never always fits");
  return found.choice;
}

function heldBut(choice: Choice, moving: "upper" | "lower") {
  return new Map(
    choice.upper.map((upper, place) => [
      place,
      {
        upper: moving === "upper" ? undefined : [upper],
        lower: moving === "lower" ? undefined : [choice.lower[place] ?? 0],
      },
    ]),
  );
}
