/**
 * What takes the time: least sums over rows and columns of small whole numbers, and the sums of
 * whole tables of them.
 */

/** Each is the same to the last bit in both; arrays may be longer than what is asked for. */
export type MinPlus = {
  /** "simd" is the module of kernel/, "plain" this language. */
  readonly name: "simd" | "plain";
  /**
   * out[i][j] = the least over k of left[i][k] + right[k][j], sums above 65,535 held there. Rows of
   * `inner` and `columns` numbers without gaps.
   */
  product(
    left: Uint16Array,
    right: Uint16Array,
    out: Uint16Array,
    size: { readonly rows: number; readonly inner: number; readonly columns: number },
  ): void;
  /** Writes costs with all that is said on top, and returns the least of them. */
  gather(costs: Int32Array, said: readonly Said[], out: Int32Array): number;
  /**
   * Writes costs - said, less the least of that; at most never - 1, and 65,535 where ruled out. As
   * long as `costs`.
   */
  give(costs: Int32Array, said: Uint16Array, given: Uint16Array): Given;
};

/** Values to add, of which those from `outFrom` on rule out. */
export type Said = { readonly values: Uint16Array; readonly outFrom: number };

/** What was taken off all values, and the largest that is not ruled out. */
export type Given = { readonly least: number; readonly most: number };

/** A cost from here on means that the pair of states can't be held. */
export const ruledOut = 2 ** 28;
