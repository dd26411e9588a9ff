/** Work that may wait: done a few milliseconds at a time, so that what is typed goes before it. */

/** How long one stretch of it may hold the page up. */
const stretchMs = 4;

const waiting = new Set<() => void>();
let isComing = false;

/** Does `work` in one of the next tasks, in the order asked; once, however often it was asked. */
export function inTurn(work: () => void): void {
  waiting.add(work);
  if (isComing) return;
  isComing = true;
  setTimeout(doSome);
}

/** Takes back what was asked. */
export function notInTurn(work: () => void): void {
  waiting.delete(work);
}

function doSome(): void {
  const until = performance.now() + stretchMs;
  try {
    for (const work of waiting) {
      waiting.delete(work);
      work();
      if (performance.now() >= until) break;
    }
  } finally {
    isComing = waiting.size > 0;
    if (isComing) setTimeout(doSome);
  }
}
