/**
 * What takes the time: least sums over rows and columns of small whole numbers, and the sums of
 * whole tables of them.
 */

/** Each is the same to the last bit in both; arrays may be longer than what is asked for. */
export type MinPlus = {
  /** "simd" is the module of kernel/, "plain" this language. */
  readonly name: "simd" | "plain";
  /** Writes costs with all that is said on top, and returns the least of them. */
  gather(costs: Int32Array, said: readonly Said[], out: Int32Array): number;
  /**
   * Gives an edge costs - said, less the least of that; at most never - 1, and 65,535 where ruled
   * out. Writes how that arrives at its other end: for each pair of states there the least sum with
   * what the edge costs both lanes, held at 65,535.
   */
  tell(
    costs: Int32Array,
    said: Uint16Array,
    crossed: Crossed<Uint16Array>,
    out: Uint16Array,
  ): Given;
};

/** How many states each lane has at one end of an edge. */
export type Sides = { readonly upper: number; readonly lower: number };

/** An edge as it is crossed: what it costs each lane. */
export type Crossed<Matrix> = {
  readonly from: Sides;
  readonly to: Sides;
  /** By rows of the states left where the lower lane has one of them, else of those entered. */
  readonly upper: Matrix;
  /** By rows of the states left. */
  readonly lower: Matrix;
};

/** One product over matrices, or over the addresses where they lie. */
export type Product<Matrix> = (
  left: Matrix,
  right: Matrix,
  out: Matrix,
  rows: number,
  inner: number,
  columns: number,
) => void;

/** What was given at one end of an edge, as it arrives at the other: two products. */
export function carry<Matrix>(
  product: Product<Matrix>,
  { from, to, upper, lower }: Crossed<Matrix>,
  { given, half, out }: { readonly given: Matrix; readonly half: Matrix; readonly out: Matrix },
): void {
  const [n, m] = [from.upper, from.lower];
  const [rows, columns] = [to.upper, to.lower];
  if (m === 1) {
    // A single column is a row as it stands, which is what vectors like.
    product(given, upper, half, 1, n, rows);
    product(half, lower, out, rows, 1, columns);
  } else if (rows * n * m + rows * m * columns <= n * m * columns + rows * n * columns) {
    product(upper, given, half, rows, n, m);
    product(half, lower, out, rows, m, columns);
  } else {
    product(given, lower, half, n, m, columns);
    product(upper, half, out, rows, n, columns);
  }
}

/** How many numbers `half` of `carry` may hold. */
export function halfLength({ from, to }: Pick<Crossed<unknown>, "from" | "to">): number {
  return Math.max(to.upper * from.lower, from.upper * to.lower);
}

/** Values to add, of which those from `outFrom` on rule out. */
export type Said = { readonly values: Uint16Array; readonly outFrom: number };

/** What was taken off all values, and the largest that is not ruled out. */
export type Given = { readonly least: number; readonly most: number };

/** A cost from here on means that the pair of states can't be held. */
export const ruledOut = 2 ** 28;
