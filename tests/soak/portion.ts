/** What one part of a soak is, and what a portion of it tells. */
export type Portion = {
  /** How much was done, in the part's own unit. */
  readonly done: number;
  /** What is worth telling beside it. */
  readonly told: string;
  readonly faults: readonly string[];
};

export type SoakPart = {
  readonly name: string;
  readonly unit: string;
  /** As far as a long run goes. */
  readonly goal: number;
  /** How long a portion takes, where it is long: it is begun only when there is time for it. */
  readonly portionMinutes?: number;
  /** A portion of the usual size, or a small one to see that it works. */
  run(seed: number, isSmall: boolean): Promise<Portion>;
};
