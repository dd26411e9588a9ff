/** The drawn neck: strings as sliders for the keys, the whole drawing for a finger or a pointer. */
import "./Neck.css";
import type { StringNumber } from "@halflap/theory/grip";
import { typedFret } from "@halflap/theory/tuning";
import { fret } from "@halflap/theory/units";
import { createEffect, createMemo, createSignal, For, onCleanup, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { laneInSentence } from "../board/owner.ts";
import { neckWords } from "../words/neck.ts";
import { stringsDown } from "./grip-figure.ts";
import { NeckGhosts } from "./NeckGhosts.tsx";
import { NeckString } from "./NeckString.tsx";
import { NeckWood } from "./NeckWood.tsx";
import { neckSize, pegX, under } from "./neck-shape.ts";
import type { NeckSlot } from "./neck-slot.ts";
import type { NeckView } from "./neck-view.ts";
import { fretOn, withString } from "./one-string.ts";

/** Tapping places a peg on that string, tapping the peg lifts it. */
export function Neck(props: { readonly slot: NeckSlot; readonly view: NeckView }) {
  const desk = useDesk();
  const [focused, setFocused] = createSignal<StringNumber>(6);
  let frame: HTMLDivElement | undefined;
  const shape = createMemo(() => ({
    frets: props.slot.setup().lastFret,
    mirrored: props.view.isMirrored(),
  }));
  const size = () => neckSize(shape());

  const put = (string: StringNumber, fret: ReturnType<typeof fretOn>) => {
    if (!props.slot.mayWrite()) return;
    const next = withString(props.slot.grip(), string, fret);
    if (next) props.slot.placeGrip(next);
    else props.slot.clearGrip();
  };
  const tap = (event: MouseEvent & { readonly currentTarget: SVGSVGElement }) => {
    const box = event.currentTarget.getBoundingClientRect();
    const scale = size().width / box.width;
    const hit = under(
      shape(),
      (event.clientX - box.left) * scale,
      (event.clientY - box.top) * scale,
    );
    if (!hit) return;
    setFocused(hit.string);
    const { setup, grip } = props.slot;
    const typed = typedFret(setup(), fret(Math.max(hit.fret, setup().capo)));
    put(hit.string, fretOn(grip(), hit.string) === typed ? undefined : typed);
  };

  createEffect(() => {
    const { before, after } = props.slot.neighbours();
    const grip = props.slot.grip() ?? before?.grip ?? after?.grip;
    const frets = grip?.frets.filter((fret) => fret !== undefined) ?? [];
    if (frets.length === 0) return;
    const middle = pegX(shape(), (Math.min(...frets) + Math.max(...frets)) / 2 + 1);
    // With the next frame, where the page is laid out anyway: asking now would lay it out twice.
    const next = requestAnimationFrame(() => {
      frame?.scrollTo({ left: middle - frame.clientWidth / 2 });
    });
    onCleanup(() => cancelAnimationFrame(next));
  });

  return (
    <div class="neck-frame" ref={frame}>
      {/* biome-ignore lint/a11y/useKeyWithClickEvents: the strings inside listen to the keys */}
      <svg
        class="neck"
        width={size().width}
        height={size().height}
        viewBox={`0 0 ${size().width} ${size().height}`}
        role="group"
        aria-label={neckWords.neckLabel(laneInSentence(desk.session, props.slot.place().lane))}
        data-may-write={props.slot.mayWrite() ? "" : undefined}
        onClick={tap}
      >
        <NeckWood shape={shape()} setup={props.slot.setup()} />
        <NeckGhosts slot={props.slot} view={props.view} shape={shape()} />
        <For each={stringsDown}>
          {(string) => (
            <NeckString
              slot={props.slot}
              shape={shape()}
              string={string}
              isFocused={focused() === string}
              onFocus={() => setFocused(string)}
              onPut={(fret) => put(string, fret)}
              onWalk={(to) => {
                setFocused(to);
                frame?.querySelector<SVGElement>(`[data-string="${to}"]`)?.focus();
              }}
            />
          )}
        </For>
      </svg>
      <Show when={!props.slot.grip()}>
        <p class="neck-empty small soft">
          {props.slot.mayWrite() ? neckWords.noGrip : neckWords.noGripReader}
        </p>
      </Show>
    </div>
  );
}
