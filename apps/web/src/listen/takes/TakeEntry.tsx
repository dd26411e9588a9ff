/** One take: whose, where, when; whether it is heard, how loud; and its end. */

import type { Take } from "@halflap/board/take";
import { levelMax } from "@halflap/sound/mix";
import { createSignal, Show } from "solid-js";
import { SureButton } from "../../app/SureButton.tsx";
import { useDesk } from "../../board/desk.ts";
import { soundWords, takeWords } from "../../words/takes.ts";
import type { Takes } from "./create-takes.ts";
import { OwnTempo } from "./OwnTempo.tsx";
import { takeByLine } from "./take-by-line.ts";

/** It plays at its own tempo only, and says so where that is not the one that is set. */
export function TakeEntry(props: { readonly take: Take; readonly takes: Takes }) {
  const desk = useDesk();
  const [isGoing, setGoing] = createSignal(false);
  const setting = () => props.takes.settingOf(props.take.id);
  const isAtTempo = () => props.takes.isAtTempo(props.take);
  const set = (change: Parameters<Takes["set"]>[1]) => props.takes.set(props.take.id, change);
  return (
    <li
      class="take"
      data-sounding={props.takes.isSounding(props.take.id) ? "" : undefined}
      data-on={setting().isOn ? "" : undefined}
    >
      <label class="listen-check">
        <input
          type="checkbox"
          aria-label={takeWords.hear(props.take.name)}
          checked={setting().isOn}
          disabled={!isAtTempo() && !setting().isOn}
          onChange={(event) => set({ isOn: event.currentTarget.checked })}
        />
        <span class="take-name">{props.take.name}</span>
      </label>
      <input
        class="take-level"
        type="range"
        min={0}
        max={levelMax * 100}
        step={10}
        value={Math.round(setting().level * 100)}
        disabled={!setting().isOn || !isAtTempo()}
        aria-label={takeWords.level(props.take.name)}
        aria-valuetext={takeWords.percent(setting().level)}
        onInput={(event) => set({ level: event.currentTarget.valueAsNumber / 100 })}
      />
      <p class="take-line small soft">{takeByLine(desk.session, props.take)}</p>
      <Show when={props.takes.mayRemove(props.take) && !isGoing()}>
        <SureButton
          words={takeWords.remove}
          sure={takeWords.removeSure}
          onSure={() => {
            setGoing(true);
            void props.takes.remove(props.take).finally(() => setGoing(false));
          }}
        />
      </Show>
      <OwnTempo take={props.take} takes={props.takes} />
      <Show when={setting().isOn && soundWords(props.takes.soundOf(props.take.id))}>
        {(words) => (
          <p class="take-says small" role="status">
            {words()}
          </p>
        )}
      </Show>
    </li>
  );
}
