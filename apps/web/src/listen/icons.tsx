/** Two signs, drawn like the page's others: a wedge that points on, and a block. */

/** A wedge. */
export const PlayIcon = () => (
  <svg viewBox="0 0 20 20" fill="currentColor" aria-hidden="true">
    <path d="M5 3.5v13l11.5-6.5z" />
  </svg>
);

/** A block. */
export const StopIcon = () => (
  <svg viewBox="0 0 20 20" fill="currentColor" aria-hidden="true">
    <path d="M4.5 4.5h11v11h-11z" />
  </svg>
);
