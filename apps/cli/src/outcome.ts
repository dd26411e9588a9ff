/** What a command ends with: text for both streams, and the exit status. */

/**
 * 0 = nothing in the way, 1 = a stop or fix stands or a store has faults, 2 = bad usage, unreadable
 * input, or can't be done.
 */
export type ExitStatus = 0 | 1 | 2;

export type Outcome = {
  readonly exit: ExitStatus;
  /** For the standard output, line ends included. */
  readonly out: string;
  /** For the standard error, line ends included. */
  readonly err: string;
};

/** Done, with something to say. */
export function done(out: string, exit: 0 | 1 = 0): Outcome {
  return { exit, out, err: "" };
}

/** Could not be done; one line of the standard error for each sentence. */
export function refused(...sentences: readonly string[]): Outcome {
  return { exit: 2, out: "", err: sentences.map((words) => `${words}\n`).join("") };
}
