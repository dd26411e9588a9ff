/** The parts we call of two published chord dictionaries that bring no types of their own. */

declare module "chord-symbol/lib/chord-symbol-esm.js" {
  /** A reader of chord symbols; what it cannot read has `error` instead of `normalized`. */
  export function chordParserFactory(): (symbol: string) => {
    readonly error?: unknown;
    readonly normalized?: { readonly notes: readonly string[] };
  };
}

declare module "teoria" {
  /** The chord of a symbol with its tones as lower-case names; throws at what it cannot read. */
  const teoria: {
    readonly chord: (symbol: string) => { readonly simple: () => readonly string[] };
  };
  export default teoria;
}
