/** A practice file of what is set: made beside the page, with progress and a way to leave it. */
import { createSignal, createUniqueId, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { fileWords, listenWords } from "../words/listen.ts";
import { loopName } from "./bar-names.ts";
import { useListening } from "./create-listening.ts";
import type { PracticeFile } from "./create-practice-file.ts";
import { canEncodeOpus } from "./opus-settings.ts";
import { companyOf } from "./players.ts";
import type { FileFormat } from "./practice-file.ts";
import { practiceFileName } from "./practice-file-name.ts";
import { fileRoundsMax } from "./practice-limits.ts";

/** What goes round is written so many times; without a loop the whole tune is. */
export function FilePart(props: { readonly file: PracticeFile }) {
  const desk = useDesk();
  const listening = useListening();
  const [hasOpus, setHasOpus] = createSignal(true);
  void canEncodeOpus().then(setHasOpus);
  const [rounds, setRounds] = createSignal(1);
  const id = createUniqueId();
  const { session } = desk;
  const loop = () => loopName(session.board, listening.wishes().loop);
  const company = () => companyOf(listening.mix(), session.ownLane() ?? "upper");
  const percent = () => listenWords.percent(listening.wishes().tempoFactor);
  const working = () => {
    const state = props.file.state();
    return state.kind === "working" ? state : undefined;
  };
  const make = (format: FileFormat) => {
    const { tempoFactor, countsIn, swing, loop: chosen } = listening.wishes();
    const who = session.ownLane() && company() !== "all" ? listenWords.who(company()) : "";
    const speed = tempoFactor === 1 ? "" : percent();
    props.file.make(
      {
        format,
        board: session.board,
        loop: chosen,
        rounds: rounds(),
        tempoFactor,
        countsIn,
        swing,
        mix: listening.mix(),
      },
      practiceFileName(session.board.title, [loop() ?? "", speed, who], format),
    );
  };
  return (
    <fieldset class="listen-file">
      <legend class="label">{listenWords.file}</legend>
      <p class="small soft">
        {listenWords.fileHint(
          loop() ?? listenWords.fileWhole,
          percent(),
          session.ownLane() ? listenWords.who(company()) : listenWords.who(undefined),
        )}
      </p>
      <div class="listen-file-row">
        <label class="small" for={id}>
          {listenWords.rounds}
        </label>
        <input
          id={id}
          class="field"
          type="number"
          inputmode="numeric"
          min={1}
          max={fileRoundsMax}
          value={rounds()}
          onChange={(event) => {
            const typed = Math.round(event.currentTarget.valueAsNumber) || 1;
            setRounds(Math.max(1, Math.min(fileRoundsMax, typed)));
            event.currentTarget.value = String(rounds());
          }}
        />
        <Show
          when={working()}
          fallback={
            <>
              <button type="button" class="button" onClick={() => make("wav")}>
                {listenWords.make}
              </button>
              <button
                type="button"
                class="button"
                disabled={!hasOpus()}
                onClick={() => make("opus")}
              >
                {listenWords.makeSmall}
              </button>
            </>
          }
        >
          {(now) => (
            <>
              <progress aria-label={listenWords.progress} value={now().done} />
              <button type="button" class="button" onClick={() => props.file.cancel()}>
                {listenWords.cancel}
              </button>
            </>
          )}
        </Show>
      </div>
      <p class="small soft">{hasOpus() ? listenWords.formats : listenWords.onlyWav}</p>
      <p class="small" role="status">
        {working() ? "" : fileWords(props.file.state())}
      </p>
    </fieldset>
  );
}
