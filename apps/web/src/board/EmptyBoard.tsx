/** A board without a chart: what to do first. */
import { boardWords } from "../words/board.ts";
import { useDesk } from "./desk.ts";

/** Says something else to a listener. */
export function EmptyBoard() {
  const desk = useDesk();
  return (
    <div class="empty-board">
      <p class="heading">{boardWords.emptyBoard}</p>
      <p class="soft">
        {desk.session.mayEditChart() ? boardWords.emptyBoardHint : boardWords.emptyBoardReader}
      </p>
    </div>
  );
}
