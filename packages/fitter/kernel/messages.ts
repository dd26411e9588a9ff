/**
 * AssemblyScript: the sums around a product, on vectors. Costs are i32, what is said of them is
 * u16. Counts are in numbers, addresses in bytes. The numbers stand as `ruledOut` and `never` in
 * src too.
 */

const ruledOut: i32 = 1 << 28;
/** No sum of real costs comes near this; what is ruled out stays above it. */
const outFrom: i32 = ruledOut >> 1;
const never: i32 = 60000;

/**
 * Adds values to costs in place, and rules out where a value is `limit` or more; the least left.
 */
export function hear(costs: usize, values: usize, count: i32, limit: i32): i32 {
  const out = i32x4.splat(ruledOut);
  const limits = i32x4.splat(limit);
  const whole = count & -8;
  let best = out;
  for (let at: i32 = 0; at < whole; at += 8) {
    const said = v128.load(values + ((<usize>at) << 1));
    const near = i32x4.extend_low_i16x8_u(said);
    const far = i32x4.extend_high_i16x8_u(said);
    const place = costs + ((<usize>at) << 2);
    const first = heard(v128.load(place), near, limits, out);
    const second = heard(v128.load(place + 16), far, limits, out);
    v128.store(place, first);
    v128.store(place + 16, second);
    best = i32x4.min_s(best, i32x4.min_s(first, second));
  }
  let least = leastIn(best);
  for (let at = whole; at < count; at++) {
    const said = <i32>load<u16>(values + ((<usize>at) << 1));
    const place = costs + ((<usize>at) << 2);
    const cost = said >= limit ? ruledOut : load<i32>(place) + said;
    store<i32>(place, cost);
    least = min(least, cost);
  }
  return least;
}

/** The least of costs - said among what is not ruled out; `ruledOut` where all is. */
export function leastNet(costs: usize, said: usize, count: i32): i32 {
  const whole = count & -8;
  let best = i32x4.splat(ruledOut);
  for (let at: i32 = 0; at < whole; at += 8) {
    const less = v128.load(said + ((<usize>at) << 1));
    const place = costs + ((<usize>at) << 2);
    best = i32x4.min_s(best, net(v128.load(place), i32x4.extend_low_i16x8_u(less)));
    best = i32x4.min_s(best, net(v128.load(place + 16), i32x4.extend_high_i16x8_u(less)));
  }
  let least = leastIn(best);
  for (let at = whole; at < count; at++) least = min(least, netAt(costs, said, at));
  return least;
}

/** Writes costs - said - least, at most never - 1, or 65,535 where ruled out; the most given. */
export function give(costs: usize, said: usize, given: usize, count: i32, least: i32): i32 {
  const whole = count & -8;
  const base = i32x4.splat(least);
  const zero = i32x4.splat(0);
  let all = zero;
  for (let at: i32 = 0; at < whole; at += 8) {
    const less = v128.load(said + ((<usize>at) << 1));
    const place = costs + ((<usize>at) << 2);
    const near = net(v128.load(place), i32x4.extend_low_i16x8_u(less));
    const far = net(v128.load(place + 16), i32x4.extend_high_i16x8_u(less));
    const first = held(near, base);
    const second = held(far, base);
    v128.store(given + ((<usize>at) << 1), i16x8.narrow_i32x4_u(first, second));
    const real = i32x4.max_s(realPart(first), realPart(second));
    all = i32x4.max_s(all, real);
  }
  let most = max(
    max(i32x4.extract_lane(all, 0), i32x4.extract_lane(all, 1)),
    max(i32x4.extract_lane(all, 2), i32x4.extract_lane(all, 3)),
  );
  for (let at = whole; at < count; at++) {
    const own = netAt(costs, said, at);
    const value = own >= ruledOut ? 65535 : min(own - least, never - 1);
    store<u16>(given + ((<usize>at) << 1), <u16>value);
    if (own < ruledOut) most = max(most, value);
  }
  return most;
}

function heard(costs: v128, said: v128, limits: v128, out: v128): v128 {
  return v128.bitselect(out, i32x4.add(costs, said), i32x4.ge_s(said, limits));
}

function net(costs: v128, less: v128): v128 {
  const isOut = i32x4.ge_s(costs, i32x4.splat(outFrom));
  return v128.bitselect(i32x4.splat(ruledOut), i32x4.sub(costs, less), isOut);
}

function netAt(costs: usize, said: usize, at: i32): i32 {
  const cost = load<i32>(costs + ((<usize>at) << 2));
  return cost >= outFrom ? ruledOut : cost - <i32>load<u16>(said + ((<usize>at) << 1));
}

function held(own: v128, base: v128): v128 {
  const value = i32x4.min_s(i32x4.sub(own, base), i32x4.splat(never - 1));
  return v128.bitselect(i32x4.splat(65535), value, i32x4.ge_s(own, i32x4.splat(ruledOut)));
}

/** What is not ruled out; 0 where it is. */
function realPart(values: v128): v128 {
  return v128.and(values, i32x4.lt_s(values, i32x4.splat(never)));
}

function leastIn(best: v128): i32 {
  return min(
    min(i32x4.extract_lane(best, 0), i32x4.extract_lane(best, 1)),
    min(i32x4.extract_lane(best, 2), i32x4.extract_lane(best, 3)),
  );
}
