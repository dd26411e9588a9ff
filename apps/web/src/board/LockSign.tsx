/** The sign of a slot whose grip a fit leaves alone: a pin driven through the timber. */
import { boardWords } from "../words/board.ts";

/** In the corner of its cell; in words for those who don't see it. */
export function LockSign() {
  return (
    <span class="lock-sign">
      <svg viewBox="0 0 12 12" aria-hidden="true">
        <circle cx="6" cy="6" r="4.6" />
        <path d="M3 6 H9 M6 3 V9" />
      </svg>
      <span class="spoken">, {boardWords.locked}</span>
    </span>
  );
}
