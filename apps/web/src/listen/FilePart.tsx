/** A practice file of what is set: made beside the page, with progress and a way to leave it. */
import { createSignal, createUniqueId, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { listenWords } from "../words/listen.ts";
import { drawerWords, fileWords } from "../words/listen-drawer.ts";
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
    const who = session.ownLane() && company() !== "all" ? drawerWords.who(company()) : "";
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
      <legend class="label">{drawerWords.file}</legend>
      <p class="small soft">
        {drawerWords.fileHint(
          loop() ?? listenWords.whole,
          percent(),
          session.ownLane() ? drawerWords.who(company()) : drawerWords.who(undefined),
        )}
      </p>
      <div class="listen-file-row">
        <label class="small" for={id}>
          {drawerWords.rounds}
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
                {drawerWords.make}
              </button>
              <button
                type="button"
                class="button"
                disabled={!hasOpus()}
                onClick={() => make("opus")}
              >
                {drawerWords.makeSmall}
              </button>
            </>
          }
        >
          {(now) => (
            <>
              <progress aria-label={drawerWords.progress} value={now().done} />
              <button type="button" class="button" onClick={() => props.file.cancel()}>
                {drawerWords.cancel}
              </button>
            </>
          )}
        </Show>
      </div>
      <p class="small soft">{hasOpus() ? drawerWords.formats : drawerWords.onlyWav}</p>
      <p class="small" role="status">
        {working() ? "" : fileWords(props.file.state())}
      </p>
    </fieldset>
  );
}
