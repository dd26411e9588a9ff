/**
 * The neck without a hand on it: frets, inlays, nut, capo and fret numbers as the lane counts
 * them.
 */
import { type Setup, typedFret } from "@halflap/theory/tuning";
import { fret as fretNumber } from "@halflap/theory/units";
import { For, Show } from "solid-js";
import { fretX, inlays, type NeckShape, neckSize, pegX, stringY } from "./neck-shape.ts";

/** Drawn for the eye; the strings carry the words. */
export function NeckWood(props: { readonly shape: NeckShape; readonly setup: Setup }) {
  const frets = () => Array.from({ length: props.shape.frets }, (_, index) => index + 1);
  const top = stringY(1);
  const bottom = stringY(6);
  const behind = () => {
    const ends = [fretX(props.shape, 0), fretX(props.shape, props.setup.capo)];
    return { x: Math.min(...ends), width: Math.abs((ends[1] ?? 0) - (ends[0] ?? 0)) };
  };
  const dots = (fret: number) =>
    inlays(fret) === 2 ? [stringY(2), stringY(5)] : [(top + bottom) / 2];
  return (
    <g aria-hidden="true">
      <For each={frets()}>
        {(fret) => (
          <>
            <Show when={inlays(fret) > 0}>
              <For each={dots(fret)}>
                {(y) => <circle class="neck-inlay" cx={pegX(props.shape, fret)} cy={y} r="5" />}
              </For>
            </Show>
            <line
              class="neck-fret"
              x1={fretX(props.shape, fret)}
              x2={fretX(props.shape, fret)}
              y1={top}
              y2={bottom}
            />
            <text
              class="neck-number"
              data-inlay={inlays(fret) > 0 ? "" : undefined}
              x={pegX(props.shape, fret)}
              y={neckSize(props.shape).height - 7}
            >
              {fret > props.setup.capo ? typedFret(props.setup, fretNumber(fret)) : ""}
            </text>
          </>
        )}
      </For>
      <Show when={props.setup.capo > 0}>
        <rect class="neck-behind" {...behind()} y={top} height={bottom - top} />
      </Show>
      <line
        class="neck-nut"
        data-capo={props.setup.capo > 0 ? "" : undefined}
        x1={fretX(props.shape, props.setup.capo)}
        x2={fretX(props.shape, props.setup.capo)}
        y1={top - 6}
        y2={bottom + 6}
      />
    </g>
  );
}
