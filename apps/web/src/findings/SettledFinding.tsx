/** The picked finding is gone: said where one looks, with the way on. */
import { createEffect, on, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { findingsWords } from "../words/findings.ts";

/** Nothing while the picked finding stands, or none was picked. */
export function SettledFinding() {
  const desk = useDesk();
  let next: HTMLButtonElement | undefined;
  createEffect(
    on(desk.settled, (finding) => {
      // Whoever pressed a button of the finding that went with it keeps a place on the page.
      if (finding && document.activeElement === document.body) next?.focus();
    }),
  );
  return (
    <div role="status">
      <Show when={desk.settled()}>
        {(finding) => (
          <div class="settled small">
            <p>
              <span class="strong">{findingsWords.settled} </span>
              <span class="settled-words">{finding().words}</span>
            </p>
            <div class="finding-acts">
              <button
                ref={next}
                type="button"
                class="button small"
                onClick={() => desk.step(1)}
                disabled={desk.findings().length === 0}
              >
                {findingsWords.next}
              </button>
              <button type="button" class="button bare small" onClick={() => desk.pick(undefined)}>
                {findingsWords.letGo}
              </button>
            </div>
          </div>
        )}
      </Show>
    </div>
  );
}
