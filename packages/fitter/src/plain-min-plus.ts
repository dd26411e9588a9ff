/** The min-plus product in plain typed arrays: where there are no vectors, and what they must equal. */
import type { MinPlus } from "./min-plus.ts";

/** Needs nothing; some fifty times slower than the module of kernel/. */
export const plainMinPlus: MinPlus = {
  name: "plain",
  product(left, right, out, { rows, inner, columns }) {
    for (let row = 0; row < rows; row += 1) {
      const start = row * columns;
      out.fill(sumMax, start, start + columns);
      for (let k = 0; k < inner; k += 1) {
        const add = left[row * inner + k] ?? 0;
        const from = k * columns;
        for (let column = 0; column < columns; column += 1) {
          const sum = add + (right[from + column] ?? 0);
          if (sum < (out[start + column] ?? 0)) out[start + column] = sum;
        }
      }
    }
  },
};

/** Sums above this are held there, as vectors of 16 bits do. */
const sumMax = 65_535;
