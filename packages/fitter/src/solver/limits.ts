/**
 * What narrows a lattice without building another: states that cost more, states that are allowed.
 */

export type Surcharge = {
  readonly upper: Uint16Array | undefined;
  readonly lower: Uint16Array | undefined;
};

/** The states that a place may hold; undefined = all of that lane. */
export type Allowed = {
  readonly upper: readonly number[] | undefined;
  readonly lower: readonly number[] | undefined;
};
