/**
 * The door of the sockets: who comes from where to which document, decided before a seat is given.
 */
import { isDocumentName } from "@halflap/board/documents";
import type { BoardId } from "@halflap/wire/api";
import { closeCode } from "@halflap/wire/messages";
import { type Context, Hono } from "hono";
import type { DocumentKey } from "../store/log-port.ts";
import { type Guest, type SocketPorts, turnAway } from "../sync/socket.ts";
import { Refused } from "./answers.ts";
import { isFromOwnPage, type Origins } from "./origin.ts";
import { seatInPlace } from "./seat-in-place.ts";
import type { Sessions } from "./session.ts";
import { SocketPlaces } from "./socket-places.ts";
import { opening } from "./upgrade.ts";

export type SyncPorts = SocketPorts & {
  readonly sessions: Sessions;
  readonly origins: Origins;
  /** Which history of a board the store holds. */
  epochOf(board: BoardId): Promise<number | undefined>;
  /** Whether a document can't be read and is left alone for a while. */
  isSetAside(key: DocumentKey): boolean;
  /** While it stops, whoever comes is sent to come again: to another node, or after the start. */
  isDraining(): boolean;
};

type Decision =
  | { readonly kind: "welcome"; readonly guest: Guest }
  | { readonly kind: "away"; readonly code: number; readonly reason: string };

/** /sync/:board/:document, as the stock y-websocket client asks for it. */
export function syncRoutes(ports: SyncPorts): Hono {
  const routes = new Hono();
  const places = new SocketPlaces(ports.now);
  routes.get("/sync/:board/:document", async (c) => {
    const decision = await decide(ports, c).catch((fault: unknown): Decision => {
      ports.onFault(fault);
      return {
        kind: "away",
        code: closeCode.tryLater,
        reason: "the store can't be asked just now",
      };
    });
    return opening(c, (caller) => {
      if (decision.kind === "away") turnAway(caller.socket, decision.code, decision.reason);
      else seatInPlace(caller, decision.guest, places, ports);
    });
  });
  return routes;
}

/** A store that can't be asked has not said that somebody is a stranger: they may come again. */
function refusalOf(fault: unknown): Refused {
  if (fault instanceof Refused) return fault;
  throw fault;
}

async function decide(ports: SyncPorts, c: Context): Promise<Decision> {
  const { origins, sessions, isDraining } = ports;
  if (!isFromOwnPage(origins, c)) {
    return { kind: "away", code: closeCode.wrongOrigin, reason: "wrong origin" };
  }
  if (isDraining()) return { kind: "away", code: closeCode.goingAway, reason: "server stops" };
  const found = await sessions.member(c).catch(refusalOf);
  if (found instanceof Refused) {
    return { kind: "away", code: closeCode.notMember, reason: "not a member of this board" };
  }
  const document = c.req.param("document") ?? "";
  if (!isDocumentName(document)) {
    return { kind: "away", code: closeCode.unknownDocument, reason: "no such document" };
  }
  const epoch = c.req.query("epoch");
  if (epoch !== undefined && epoch !== String(await ports.epochOf(found.board))) {
    return { kind: "away", code: closeCode.otherEpoch, reason: "the board was restored" };
  }
  const key = { board: found.board, document };
  if (ports.isSetAside(key)) {
    return {
      kind: "away",
      code: closeCode.unreadable,
      reason: "the server can't read this document",
    };
  }
  const wantsSaved = c.req.query("saved") === "1";
  return { kind: "welcome", guest: { key, member: found.me.id, wantsSaved } };
}
