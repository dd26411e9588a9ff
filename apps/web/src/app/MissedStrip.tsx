/** Says that part of the page could not be fetched, and how to get it. */
import { createSignal, type JSX } from "solid-js";
import { server } from "../session/server.ts";
import { appWords } from "../words/app.ts";
import { dismissMissed } from "./lazy-part.tsx";
import { Strip } from "./Strip.tsx";

/** The page is loaded again, but only while there is somebody to load it from. */
export function MissedStrip(): JSX.Element {
  const [isAway, setAway] = createSignal(false);
  const tryAgain = async () => {
    const answer = await server.boards();
    if (answer.ok || answer.code !== "away") location.reload();
    else setAway(true);
  };
  return (
    <Strip
      label={appWords.missedLabel}
      words={isAway() ? appWords.stillMissed : appWords.missed}
      tone="trouble"
    >
      <button type="button" class="button" onClick={() => void tryAgain()}>
        {appWords.tryAgain}
      </button>
      <button type="button" class="button" onClick={dismissMissed}>
        {appWords.close}
      </button>
    </Strip>
  );
}
