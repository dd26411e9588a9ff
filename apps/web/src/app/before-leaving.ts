/** Asking before something is lost by leaving: the page, or what is open in it. */
import { useBeforeLeave } from "@solidjs/router";
import { onCleanup } from "solid-js";

/** While `wouldLose`, leaving is asked about: by the browser, or here in these words. */
export function askBeforeLeaving(wouldLose: () => boolean, words: string): void {
  const onUnload = (event: BeforeUnloadEvent) => {
    if (wouldLose()) event.preventDefault();
  };
  addEventListener("beforeunload", onUnload);
  onCleanup(() => removeEventListener("beforeunload", onUnload));
  useBeforeLeave((leave) => {
    // Somebody else may have asked already.
    if (!leave.defaultPrevented && wouldLose() && !confirm(words)) leave.preventDefault();
  });
}
