/**
 * What a second node adds: the same load on one PostgreSQL with Redis beside it, once with writers
 * and hearers at one node, once with the hearers at another.
 */
import { startPostgres } from "../../support/postgres.ts";
import { startRedis } from "../../support/redis.ts";
import { type Loaded, openLoop } from "./load.ts";
import { startTarget } from "./target.ts";

export type TwoNodes = { readonly one: Loaded; readonly two: Loaded };

const load = { perSecond: 600, seconds: 4 };

/** Measures both, one after the other, over stores of their own that are gone afterwards. */
export async function twoNodes(): Promise<TwoNodes> {
  const postgres = await startPostgres();
  const redis = await startRedis();
  try {
    return await measured({
      HALFLAP_DATABASE_URL: postgres.makeDatabase("bench"),
      HALFLAP_REDIS_URL: redis.address,
    });
  } finally {
    await Promise.all([postgres.remove(), redis.kill()]);
  }
}

async function measured(variables: Readonly<Record<string, string>>): Promise<TwoNodes> {
  const here = await startTarget("ours", { variables });
  const there = await startTarget("ours", { variables, isEmpty: true });
  try {
    const { offer } = here;
    const across = { ...here, offer: { ...offer, hearersAt: there.offer.address } };
    await openLoop(across, offer.measured, load); // as warm for the one as for the other
    const one = await openLoop(here, offer.measured, load);
    return { one, two: await openLoop(across, offer.measured, load) };
  } finally {
    await Promise.all([here.end(), there.end()]);
  }
}
