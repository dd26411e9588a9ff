/** A store: the log, the people and the takes, kept in one place. */
import type { UpdateLog } from "./log-port.ts";
import type { People } from "./people-port.ts";
import type { Takes } from "./takes-port.ts";

export type Store = {
  readonly log: UpdateLog;
  readonly people: People;
  readonly takes: Takes;
  /** Ends every use; nothing may be asked of the store afterwards. */
  close(): Promise<void>;
};
