/** One string of the neck as a slider: arrows move its fret, digits set it, x silences it. */

import { pretty } from "@halflap/theory/display";
import type { StringNumber } from "@halflap/theory/grip";
import { accidentalsOf } from "@halflap/theory/key";
import { pitchName } from "@halflap/theory/pitch";
import { highestFret, isOpen, lowestFret, neckFret, pitchAt } from "@halflap/theory/tuning";
import { type Fret, fret } from "@halflap/theory/units";
import { createMemo, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { neckWords } from "../words/neck.ts";
import { makeFretTyping } from "./fret-typing.ts";
import { NotePeg } from "./NotePeg.tsx";
import { type NeckShape, neckSize, pegX, stringGap, stringY } from "./neck-shape.ts";
import type { NeckSlot } from "./neck-slot.ts";
import { fretOn } from "./one-string.ts";
import { stringKey } from "./string-keys.ts";

/** A slider counts silence as one below its lowest fret. */
export function NeckString(props: {
  readonly slot: NeckSlot;
  readonly shape: NeckShape;
  readonly string: StringNumber;
  readonly isFocused: boolean;
  readonly onFocus: () => void;
  readonly onPut: (fret: Fret | undefined) => void;
  readonly onWalk: (to: StringNumber) => void;
}) {
  const desk = useDesk();
  const setup = () => props.slot.setup();
  // With frets counted from the nut an open string may be typed 0 or as the capo's fret.
  const typed = createMemo(() => {
    const at = fretOn(props.slot.grip(), props.string);
    return at === undefined ? undefined : fret(Math.max(at, lowestFret(setup())));
  });
  const pitch = () => {
    const at = typed();
    return at === undefined ? undefined : pitchAt(setup(), props.string, at);
  };
  const isOnCapo = () => isOpen(setup(), typed() ?? lowestFret(setup()));
  const x = () => pegX(props.shape, neckFret(setup(), typed() ?? fret(0)) ?? setup().capo);
  const words = () => {
    const at = typed();
    const sounds = pitch();
    if (at === undefined || sounds === undefined) return neckWords.silentString;
    return neckWords.fretted(at, pretty(pitchName(sounds, accidentalsOf(props.slot.key()))));
  };
  const fretTyping = makeFretTyping();
  const press = (event: KeyboardEvent) => {
    const range = { lowest: lowestFret(setup()), highest: highestFret(setup()) };
    const digits = fretTyping(event, props.slot.place().slot, range);
    const act = stringKey(event, typed(), digits, range, props.shape.mirrored);
    if (!act) return;
    event.preventDefault();
    event.stopPropagation();
    if (act.kind === "walk") props.onWalk(stepped(props.string, act.by));
    else props.onPut(act.fret === undefined ? undefined : fret(act.fret));
  };
  return (
    <g
      class="neck-string"
      role="slider"
      tabindex={props.isFocused ? 0 : -1}
      data-string={props.string}
      data-silent={typed() === undefined ? "" : undefined}
      aria-label={neckWords.string(props.string)}
      aria-valuemin={lowestFret(setup()) - 1}
      aria-valuemax={highestFret(setup())}
      aria-valuenow={typed() ?? lowestFret(setup()) - 1}
      aria-valuetext={words()}
      aria-readonly={!props.slot.mayWrite()}
      onFocus={() => props.onFocus()}
      onKeyDown={press}
    >
      <rect
        class="neck-string-target"
        x="1"
        y={stringY(props.string) - stringGap / 2}
        width={neckSize(props.shape).width - 2}
        height={stringGap}
      />
      <line
        class="neck-string-line"
        x1="0"
        x2={neckSize(props.shape).width}
        y1={stringY(props.string)}
        y2={stringY(props.string)}
        style={{ "--gauge": String(0.7 + props.string * 0.28) }}
      />
      <Show
        when={typed() !== undefined}
        fallback={
          <text
            class="neck-silent"
            x={pegX(props.shape, setup().capo)}
            y={stringY(props.string)}
            aria-hidden="true"
          >
            ×
          </text>
        }
      >
        <NotePeg
          lane={props.slot.place().lane}
          slot={props.slot}
          string={props.string}
          x={x()}
          y={stringY(props.string)}
          open={isOnCapo()}
          picked={desk.isPicked(props.slot.place().lane, props.slot.place().slot, pitch() ?? -1)}
        />
      </Show>
    </g>
  );
}

function stepped(string: StringNumber, by: 1 | -1): StringNumber {
  const strings: readonly StringNumber[] = [1, 2, 3, 4, 5, 6];
  return strings[strings.indexOf(string) + by] ?? string;
}
