/**
 * AssemblyScript: the min-plus product of u16 matrices on 128-bit vectors. Sums saturate at 65,535.
 * Matrices lie in memory without gaps; addresses are in bytes, sizes in numbers.
 */

/** How many numbers one vector holds. */
const lanes: i32 = 8;

/** out[i][j] = the least over k of left[i][k] + right[k][j]. Nothing may overlap `out`. */
export function product(
  left: usize,
  right: usize,
  out: usize,
  rows: i32,
  inner: i32,
  columns: i32,
): void {
  if (columns < lanes) {
    narrowProduct(left, right, out, rows, inner, columns);
    return;
  }
  let column: i32 = 0;
  for (; column + 4 * lanes <= columns; column += 4 * lanes) {
    for (let row: i32 = 0; row < rows; row += 2) {
      wideTile(left, right, out, max(0, min(row, rows - 2)), rows, inner, columns, column);
    }
  }
  // Where less than a vector or four rows are left they are moved back: some sums are worked out
  // twice, so that no matrix needs padding.
  for (; column < columns; column += lanes) {
    const first = min(column, columns - lanes);
    for (let row: i32 = 0; row < rows; row += 4) {
      tallTile(left, right, out, max(0, min(row, rows - 4)), rows, inner, columns, first);
    }
  }
}

/**
 * Adds and takes minima in registers only, twelve vectors a turn: the rate that nothing can beat.
 * Returns a number that depends on all of it.
 */
export function registerTurns(turns: i32): i32 {
  const step = i16x8.splat(3);
  const cap = i16x8.splat(i16(turns));
  let a = step,
    b = step,
    c = step,
    d = step,
    e = step,
    f = step;
  let g = step,
    h = step,
    i = step,
    j = step,
    k = step,
    l = step;
  for (let turn: i32 = 0; turn < turns; turn++) {
    a = least(cap, sum(a, step));
    b = least(cap, sum(b, step));
    c = least(cap, sum(c, step));
    d = least(cap, sum(d, step));
    e = least(cap, sum(e, step));
    f = least(cap, sum(f, step));
    g = least(cap, sum(g, step));
    h = least(cap, sum(h, step));
    i = least(cap, sum(i, step));
    j = least(cap, sum(j, step));
    k = least(cap, sum(k, step));
    l = least(cap, sum(l, step));
  }
  const all = least(least(least(a, b), least(c, d)), least(least(e, f), least(g, h)));
  return i32(i16x8.extract_lane_u(least(all, least(least(i, j), least(k, l))), 0));
}

/** Two rows by four vectors, whose sums so far stay in registers over all of k. */
function wideTile(
  left: usize,
  right: usize,
  out: usize,
  row: i32,
  rows: i32,
  inner: i32,
  columns: i32,
  first: i32,
): void {
  const pitch = (<usize>columns) << 1,
    length = (<usize>inner) << 1;
  const row1 = <usize>min(1, rows - 1);
  const left1 = row1 * length;
  let from = right + ((<usize>first) << 1),
    at = left + <usize>row * length;
  const end = at + length;
  let a0 = i16x8.splat(-1),
    a1 = a0,
    b0 = a0,
    b1 = a0,
    c0 = a0,
    c1 = a0,
    d0 = a0,
    d1 = a0;
  for (; at < end; at += 2) {
    const x0 = v128.load_splat<u16>(at),
      x1 = v128.load_splat<u16>(at + left1);
    const a = v128.load(from),
      b = v128.load(from, 16),
      c = v128.load(from, 32),
      d = v128.load(from, 48);
    a0 = least(a0, sum(x0, a));
    a1 = least(a1, sum(x1, a));
    b0 = least(b0, sum(x0, b));
    b1 = least(b1, sum(x1, b));
    c0 = least(c0, sum(x0, c));
    c1 = least(c1, sum(x1, c));
    d0 = least(d0, sum(x0, d));
    d1 = least(d1, sum(x1, d));
    from += pitch;
  }
  const to = out + ((<usize>first) << 1) + <usize>row * pitch;
  store4(to, a0, b0, c0, d0);
  store4(to + row1 * pitch, a1, b1, c1, d1);
}

/** Four rows by one vector. */
function tallTile(
  left: usize,
  right: usize,
  out: usize,
  row: i32,
  rows: i32,
  inner: i32,
  columns: i32,
  first: i32,
): void {
  const pitch = (<usize>columns) << 1,
    length = (<usize>inner) << 1;
  // Where there are fewer than four rows, the last one again.
  const row1 = <usize>min(1, rows - 1),
    row2 = <usize>min(2, rows - 1);
  const row3 = <usize>min(3, rows - 1);
  let from = right + ((<usize>first) << 1),
    at = left + <usize>row * length;
  const end = at + length;
  let a0 = i16x8.splat(-1),
    a1 = a0,
    a2 = a0,
    a3 = a0;
  for (; at < end; at += 2) {
    const near = v128.load(from);
    a0 = least(a0, sum(v128.load_splat<u16>(at), near));
    a1 = least(a1, sum(v128.load_splat<u16>(at + row1 * length), near));
    a2 = least(a2, sum(v128.load_splat<u16>(at + row2 * length), near));
    a3 = least(a3, sum(v128.load_splat<u16>(at + row3 * length), near));
    from += pitch;
  }
  const to = out + ((<usize>first) << 1) + <usize>row * pitch;
  v128.store(to, a0);
  v128.store(to + row1 * pitch, a1);
  v128.store(to + row2 * pitch, a2);
  v128.store(to + row3 * pitch, a3);
}

function store4(to: usize, a: v128, b: v128, c: v128, d: v128): void {
  v128.store(to, a);
  v128.store(to, b, 16);
  v128.store(to, c, 32);
  v128.store(to, d, 48);
}

/** Fewer columns than a vector holds: number by number. */
function narrowProduct(
  left: usize,
  right: usize,
  out: usize,
  rows: i32,
  inner: i32,
  columns: i32,
): void {
  for (let row: i32 = 0; row < rows; row++) {
    for (let column: i32 = 0; column < columns; column++) {
      let best: u32 = 65535;
      for (let k: i32 = 0; k < inner; k++) {
        const a = <u32>load<u16>(left + ((<usize>(row * inner + k)) << 1));
        best = min(best, a + load<u16>(right + ((<usize>(k * columns + column)) << 1)));
      }
      store<u16>(out + ((<usize>(row * columns + column)) << 1), <u16>best);
    }
  }
}

function sum(a: v128, b: v128): v128 {
  return i16x8.add_sat_u(a, b);
}

function least(a: v128, b: v128): v128 {
  return i16x8.min_u(a, b);
}
