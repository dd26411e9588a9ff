/**
 * How the clock of who asks, a page or a node, lies to that of the server who answers, worked out
 * from questions and answers. What a constant difference between the way there and the way back
 * hides, no question can show: so a bound is given.
 */

/** When a question left and its answer came by the asker's clock; the server's word between. */
export type Ping = { readonly sentMs: number; readonly serverMs: number; readonly cameMs: number };

/** What one round of questions says. */
export type Reckoning = {
  /** The middle of the round, by the asker's clock. */
  readonly atMs: number;
  /** To be added to the asker's time. */
  readonly offsetMs: number;
  /** The truth lies no further away. */
  readonly withinMs: number;
};

/** Both clocks, one running a little faster than the other. */
export type Agreement = Reckoning & {
  /** By how much the offset grows in a ms. */
  readonly drift: number;
};

/** Questions in a round. */
export const pingsPerRound = 40;
/** The share of the fastest round trips, on which the least has happened on the way. */
const fastestShare = 0.15;
/** Rounds that are looked at together. */
export const roundsMax = 8;
/** Rounds closer together than this say nothing about the drift. */
const driftSpanMs = 30_000;
/** Clocks of computers run apart by less than this: 0.2 per thousand. */
const driftMax = 2e-4;

/** What the fastest round trips say; undefined without any. */
export function reckon(pings: readonly Ping[]): Reckoning | undefined {
  const fastest = [...pings]
    .sort((a, b) => roundTrip(a) - roundTrip(b))
    .slice(0, Math.max(1, Math.ceil(pings.length * fastestShare)));
  const [first] = fastest;
  if (first === undefined) return undefined;
  const offsets = fastest.map(offsetOf);
  const offsetMs = median(offsets);
  const spread = Math.max(...offsets.map((offset) => Math.abs(offset - offsetMs)));
  const atMs = median(pings.map(({ sentMs, cameMs }) => (sentMs + cameMs) / 2));
  return { atMs, offsetMs, withinMs: roundTrip(first) / 2 + spread };
}

/** What the rounds say together, brought to the last one's time; undefined without any. */
export function agree(rounds: readonly Reckoning[]): Agreement | undefined {
  const last = rounds.at(-1);
  if (last === undefined) return undefined;
  const drift = driftOf(rounds);
  const { atMs } = last;
  const brought = rounds.map((round) => round.offsetMs + drift * (atMs - round.atMs));
  const offsetMs = median(brought);
  const bounds = rounds.map(
    ({ withinMs }, index) => withinMs + Math.abs((brought[index] ?? offsetMs) - offsetMs),
  );
  return { atMs, offsetMs, withinMs: Math.min(...bounds), drift };
}

/** The server's time at a moment of the asker's clock, in ms. */
export function serverTime({ atMs, offsetMs, drift }: Agreement, askerMs: number): number {
  return askerMs + offsetMs + drift * (askerMs - atMs);
}

/** The moment of the asker's clock at which the server's shows this time, in ms. */
export function askerTime({ atMs, offsetMs, drift }: Agreement, serverMs: number): number {
  return (serverMs - offsetMs + drift * atMs) / (1 + drift);
}

function roundTrip({ sentMs, cameMs }: Ping): number {
  return cameMs - sentMs;
}

function offsetOf({ sentMs, serverMs, cameMs }: Ping): number {
  return serverMs - (sentMs + cameMs) / 2;
}

/**
 * The median of the slopes between rounds (Theil 1950, Sen 1968): one bad round does not bend it.
 */
function driftOf(rounds: readonly Reckoning[]): number {
  const slopes = rounds.flatMap((later, index) =>
    rounds
      .slice(0, index)
      .filter((earlier) => later.atMs - earlier.atMs >= driftSpanMs)
      .map((earlier) => (later.offsetMs - earlier.offsetMs) / (later.atMs - earlier.atMs)),
  );
  if (slopes.length === 0) return 0;
  return Math.max(-driftMax, Math.min(driftMax, median(slopes)));
}

/** The middle value of at least one. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = (sorted.length - 1) / 2;
  const [low, high] = [sorted[Math.floor(half)], sorted[Math.ceil(half)]];
  if (low === undefined || high === undefined) throw new Error("no values");
  return (low + high) / 2;
}
