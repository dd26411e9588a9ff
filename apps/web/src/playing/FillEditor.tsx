/** A fill: what it is, where it lies, and its notes on a grid of tab. */
import type { Fill } from "@halflap/board/playing";
import { type Ticks, ticks } from "@halflap/theory/units";
import { For } from "solid-js";
import { Choice } from "../app/Choice.tsx";
import { playingWords } from "../words/playing.ts";
import { beatName, withFractions } from "./beat-name.ts";
import type { Playing } from "./create-playing.ts";
import { TabGrid } from "./TabGrid.tsx";
import { fillLengths, fillStarts, withFillLength } from "./tab-grid.ts";

const kinds: readonly Fill["kind"][] = ["fill", "line"];

/** Moving a fill takes its notes along; shortening it cuts them. */
export function FillEditor(props: { readonly playing: Playing; readonly fill: Fill }) {
  const place = () => props.playing.placeOf(props.fill);
  const starts = () => fillStarts(place()?.bar.length ?? 0, props.fill.start);
  const lengths = () => fillLengths(place()?.room ?? 0, props.fill.length);
  const change = (next: Partial<Fill>) => props.playing.changeFill({ ...props.fill, ...next });
  /** A fill ends with its section at the latest. */
  const moveTo = (start: Ticks) => {
    const room = (place()?.room ?? 0) + props.fill.start - start;
    const length = ticks(Math.min(props.fill.length, room));
    props.playing.changeFill(withFillLength({ ...props.fill, start }, length));
  };
  return (
    <div class="playing-group">
      <Choice
        label={playingWords.kind}
        options={kinds}
        words={playingWords.kindChoices}
        chosen={props.fill.kind}
        onChoose={(kind) => change({ kind })}
      />
      <div class="playing-row">
        <label>
          <span class="label small">{playingWords.starts}</span>
          <select
            class="field"
            onChange={(event) => moveTo(ticks(Number(event.currentTarget.value)))}
          >
            <For each={starts()}>
              {(start) => (
                <option value={start} selected={start === props.fill.start}>
                  {beatName(start, props.playing.beat())}
                </option>
              )}
            </For>
          </select>
        </label>
        <label>
          <span class="label small">{playingWords.lasts}</span>
          <select
            class="field"
            onChange={(event) =>
              props.playing.changeFill(
                withFillLength(props.fill, ticks(Number(event.currentTarget.value))),
              )
            }
          >
            <For each={lengths()}>
              {(length) => (
                <option value={length} selected={length === props.fill.length}>
                  {playingWords.beats(withFractions(length / props.playing.beat()))}
                </option>
              )}
            </For>
          </select>
        </label>
      </div>
      <button
        type="button"
        class="button"
        aria-pressed={props.fill.together}
        onClick={() => change({ together: !props.fill.together })}
      >
        {playingWords.bothFill}
      </button>
      <TabGrid playing={props.playing} fill={props.fill} />
    </div>
  );
}
