/** The sums of kernel/, compiled to WebAssembly, with its memory looked after. */
import { carry, halfLength, type MinPlus } from "./min-plus.ts";
import { plainMinPlus } from "./plain-min-plus.ts";

/** What this package needs to know of WebAssembly, which the language's own library leaves out. */
type Engine = {
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Instance: new (module: object) => { readonly exports: unknown };
};
declare const WebAssembly: Engine | undefined;

type Memory = { readonly buffer: ArrayBuffer; grow(pages: number): number };
/** Addresses in bytes, counts in numbers. */
type Kernel = {
  readonly memory: Memory;
  product(
    left: number,
    right: number,
    out: number,
    rows: number,
    inner: number,
    columns: number,
  ): void;
  hear(costs: number, values: number, count: number, limit: number): number;
  leastNet(costs: number, said: number, count: number): number;
  give(costs: number, said: number, given: number, count: number, least: number): number;
};

/**
 * The fast product from the bytes of kernel.wasm; undefined where the engine has no WebAssembly, no
 * vectors, or can't read them. Compiles at once: the module has 3 KB.
 */
export function simdMinPlus(bytes: Uint8Array): MinPlus | undefined {
  const kernel = instantiate(bytes);
  return kernel && onVectors(kernel);
}

function onVectors(kernel: Kernel): MinPlus {
  let numbers = new Uint16Array(kernel.memory.buffer);
  let costsView = new Int32Array(kernel.memory.buffer);
  /** Grows the memory, if need be, up to an address. */
  const reach = (end: number) => {
    if (end <= numbers.byteLength) return;
    kernel.memory.grow(Math.ceil((end - numbers.byteLength) / pageBytes));
    numbers = new Uint16Array(kernel.memory.buffer);
    costsView = new Int32Array(kernel.memory.buffer);
  };
  return {
    name: "simd",
    gather(costs, said, out) {
      if (said.length === 0) return plainMinPlus.gather(costs, said, out);
      const count = costs.length;
      const valuesAt = after(start, count * 4);
      reach(valuesAt + count * 2);
      costsView.set(costs, start / 4);
      let least = 0;
      for (const { values, outFrom } of said) {
        numbers.set(cut(values, count), valuesAt / 2);
        least = kernel.hear(start, valuesAt, count, outFrom);
      }
      out.set(costsView.subarray(start / 4, start / 4 + count));
      return least;
    },
    tell(costs, said, { from, to, ...costsOver }, out) {
      const count = costs.length;
      const saidAt = after(start, count * 4);
      const givenAt = after(saidAt, count * 2);
      const upper = after(givenAt, count * 2);
      const lower = after(upper, costsOver.upper.length * 2);
      const halfAt = after(lower, costsOver.lower.length * 2);
      const outAt = after(halfAt, halfLength({ from, to }) * 2);
      const end = outAt + out.length * 2;
      reach(end);
      costsView.set(costs, start / 4);
      numbers.set(said, saidAt / 2);
      const least = kernel.leastNet(start, saidAt, count);
      const most = kernel.give(start, saidAt, givenAt, count, least);
      numbers.set(costsOver.upper, upper / 2);
      numbers.set(costsOver.lower, lower / 2);
      const crossed = { from, to, upper, lower };
      carry(kernel.product, crossed, { given: givenAt, half: halfAt, out: outAt });
      out.set(numbers.subarray(outAt / 2, end / 2));
      return { least, most };
    },
  };
}

const pageBytes = 65_536;
/** The compiler keeps the first bytes of memory for itself. */
const start = 2048;

/** The next address where a cache line begins; reading across two costs time. */
function after(address: number, bytes: number): number {
  return Math.ceil((address + bytes) / 64) * 64;
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
