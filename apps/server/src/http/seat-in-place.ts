/** Seats a guest where a place is left, and holds the sockets of a board to their rate together. */
import { closeCode } from "@halflap/wire/messages";
import { type Guest, type SocketPorts, seatGuest, turnAway } from "../sync/socket.ts";
import type { Caller } from "../sync/socket-line.ts";
import type { SocketPlaces } from "./socket-places.ts";

/** For as long as the socket lasts; turned away where no place is left. */
export function seatInPlace(
  caller: Caller,
  guest: Guest,
  places: SocketPlaces,
  ports: SocketPorts,
): void {
  const { socket } = caller;
  const place = places.take(guest.key.board);
  if (place === undefined) {
    turnAway(socket, closeCode.tryLater, "too many are connected");
    return;
  }
  socket.on("close", () => place.leave());
  seatGuest(caller, guest, ports, place);
}
