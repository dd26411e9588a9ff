/** To the finding before, and to the next one. */
import { useDesk } from "../board/desk.ts";
import { findingsWords } from "../words/findings.ts";

/** Two buttons; where they stand is up to whoever shows them. */
export function FindingSteps() {
  const desk = useDesk();
  return (
    <>
      <button
        type="button"
        class="button bare"
        aria-label={findingsWords.previous}
        onClick={() => desk.step(-1)}
      >
        ↑
      </button>
      <button
        type="button"
        class="button bare"
        aria-label={findingsWords.next}
        onClick={() => desk.step(1)}
      >
        ↓
      </button>
    </>
  );
}
