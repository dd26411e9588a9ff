/** Whose a lane is, in words. */
import type { LaneId, Member } from "@halflap/board/board";
import type { Session } from "../session/session.ts";
import { boardWords } from "../words/board.ts";

/** The member who owns a lane; undefined while it is free. */
export function laneOwner(session: Session, lane: LaneId): Member | undefined {
  const owner = session.board.lanes[lane].owner;
  return session.board.members.find((member) => member.id === owner);
}

/** "Your part", "Mara’s part", or that the lane is free. */
export function whosePart(session: Session, lane: LaneId): string {
  if (session.ownLane() === lane) return boardWords.yours;
  const owner = laneOwner(session, lane);
  return owner ? boardWords.partOf(owner.name) : boardWords.free;
}

/** How a sentence names the lane: "Mara’s part", "your part", "the upper lane". */
export function laneInSentence(session: Session, lane: LaneId): string {
  if (session.ownLane() === lane) return boardWords.yourPart;
  const owner = laneOwner(session, lane);
  return owner ? boardWords.partOf(owner.name) : boardWords.theLane(boardWords.lanesShort[lane]);
}
