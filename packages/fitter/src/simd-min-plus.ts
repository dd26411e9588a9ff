/** The min-plus product of kernel/, compiled to WebAssembly, with its memory looked after. */
import type { MinPlus } from "./min-plus.ts";

/** What this package needs to know of WebAssembly, which the language's own library leaves out. */
type Engine = {
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Instance: new (module: object) => { readonly exports: unknown };
};
declare const WebAssembly: Engine | undefined;

type Memory = { readonly buffer: ArrayBuffer; grow(pages: number): number };
type Product = (
  left: number,
  right: number,
  out: number,
  rows: number,
  inner: number,
  columns: number,
) => void;
type Kernel = { readonly memory: Memory; readonly product: Product };

/**
 * The fast product from the bytes of kernel.wasm; undefined where the engine has no WebAssembly, no
 * vectors, or can't read them. Compiles at once: the module has 2 KB.
 */
export function simdMinPlus(bytes: Uint8Array): MinPlus | undefined {
  const kernel = instantiate(bytes);
  if (kernel === undefined) return undefined;
  let numbers = new Uint16Array(kernel.memory.buffer);
  return {
    name: "simd",
    product(left, right, out, { rows, inner, columns }) {
      const leftAt = start;
      const rightAt = aligned(leftAt + rows * inner);
      const outAt = aligned(rightAt + inner * columns);
      const end = outAt + rows * columns;
      if (end > numbers.length) {
        kernel.memory.grow(Math.ceil(((end - numbers.length) * 2) / pageBytes));
        numbers = new Uint16Array(kernel.memory.buffer);
      }
      numbers.set(cut(left, rows * inner), leftAt);
      numbers.set(cut(right, inner * columns), rightAt);
      kernel.product(leftAt * 2, rightAt * 2, outAt * 2, rows, inner, columns);
      out.set(numbers.subarray(outAt, end));
    },
  };
}

const pageBytes = 65_536;
/** The compiler keeps the first bytes of memory for itself; in numbers. */
const start = 1024;

/** The next place where a vector begins, in numbers; reading across cache lines costs time. */
function aligned(at: number): number {
  return Math.ceil(at / 32) * 32;
}

function cut(numbers: Uint16Array, length: number): Uint16Array {
  return numbers.length === length ? numbers : numbers.subarray(0, length);
}

function instantiate(bytes: Uint8Array): Kernel | undefined {
  if (typeof WebAssembly === "undefined") return undefined;
  try {
    const { exports } = new WebAssembly.Instance(new WebAssembly.Module(bytes));
    return isKernel(exports) ? exports : undefined;
  } catch {
    // An engine without vectors refuses the module; the plain product is there for it.
    return undefined;
  }
}

function isKernel(exports: unknown): exports is Kernel {
  return typeof exports === "object" && exports !== null && "product" in exports;
}
