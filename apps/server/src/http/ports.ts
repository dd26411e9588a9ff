/** What the routes work with. */

import type { People } from "../store/people-port.ts";
import type { Takes } from "../store/takes-port.ts";
import type { BoardDesk } from "../sync/board-desk.ts";
import type { BoardTitles } from "../sync/board-titles.ts";
import type { AddressOf } from "./client-address.ts";
import type { Sessions } from "./session.ts";

export type RoutePorts = {
  readonly people: People;
  readonly takes: Takes;
  readonly sessions: Sessions;
  readonly desk: BoardDesk;
  readonly titles: BoardTitles;
  /** Whom a request counts for where rates are kept. */
  readonly addressOf: AddressOf;
  /** Milliseconds since 1970. */
  readonly now: () => number;
};
