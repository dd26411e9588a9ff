/** The one product that takes the time: least sums over rows and columns of small whole numbers. */

/**
 * out[i][j] = the least over k of left[i][k] + right[k][j], sums above 65,535 held there. Rows of
 * `inner` and `columns` numbers without gaps.
 */
export type MinPlus = {
  /** "simd" is the module of kernel/, "plain" this language. */
  readonly name: "simd" | "plain";
  product(
    left: Uint16Array,
    right: Uint16Array,
    out: Uint16Array,
    size: { readonly rows: number; readonly inner: number; readonly columns: number },
  ): void;
};
