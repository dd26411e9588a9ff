/** How fast it is played, in parts of the board's own tempo; the place is kept. */
import { tempoFactorMax, tempoFactorMin } from "@halflap/sound/performance";
import { createUniqueId } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { listenWords } from "../words/listen.ts";
import { useListening } from "./create-listening.ts";

/** Steps of 5 %; pressing the figure goes back to the tempo as written. */
export function TempoField() {
  const desk = useDesk();
  const listening = useListening();
  const id = createUniqueId();
  const factor = () => listening.wishes().tempoFactor;
  const beats = () => listenWords.beats(desk.session.board.tempo * factor());
  return (
    <div class="listen-tempo">
      <label class="small strong" for={id}>
        {listenWords.tempo}
      </label>
      <input
        id={id}
        type="range"
        min={tempoFactorMin * 100}
        max={tempoFactorMax * 100}
        step={5}
        value={Math.round(factor() * 100)}
        aria-valuetext={`${listenWords.percent(factor())}, ${beats()}`}
        onInput={(event) => {
          listening.wish({ tempoFactor: event.currentTarget.valueAsNumber / 100 });
        }}
      />
      <button
        type="button"
        class="button bare small listen-figure"
        title={listenWords.asWritten}
        aria-label={`${listenWords.percent(factor())}, ${beats()}: ${listenWords.asWritten}`}
        disabled={factor() === 1}
        onClick={() => listening.wish({ tempoFactor: 1 })}
      >
        {listenWords.percent(factor())}
      </button>
    </div>
  );
}
