/** A store's tables as commands ask them: the same statements for a file and for a database. */

type Row = Readonly<Record<string, unknown>>;
/** Asks one statement with $1, $2 ... in it; its rows. */
export type Ask = <R extends Row>(text: string, values?: readonly unknown[]) => Promise<R[]>;

/** Where a store is: a file or its folder, or a database that nodes share. */
export type StorePlace =
  | { readonly kind: "file"; readonly path: string }
  | { readonly kind: "database"; readonly address: string };

/** What is wrong with a store apart from what is in its documents. */
export type TableFault = {
  /** Undefined for a fault of the whole. */
  readonly board: string | undefined;
  readonly part: string;
  readonly why: string;
};

export type Records = {
  readonly ask: Ask;
  /** Several questions about one moment of the store; they are asked quickly, others may wait. */
  moment<T>(work: () => Promise<T>): Promise<T>;
  /** The sound of a take as far as it is there. */
  soundOf(take: string): Promise<Buffer>;
  /** What the store's own kind of keeping can tell. */
  faults(): Promise<readonly TableFault[]>;
  close(): Promise<void>;
};
