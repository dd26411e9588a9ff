/** Wishes about single grips: the one I stand on locked, liked or banned, and their lists. */
import type { LaneId } from "@halflap/board/board";
import { wishedGripsMax } from "@halflap/board/limits";
import { pretty } from "@halflap/theory/display";
import { type Grip, printGrip, sameGrip } from "@halflap/theory/grip";
import { createMemo, For, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { wishWords } from "../words/wishes.ts";
import { LockButton } from "./LockButton.tsx";
import { slotWithBar } from "./slot-places.ts";
import { gripChange } from "./wish-change.ts";

/** The grip is the one on the board, not one that is only looked at. */
export function GripWishes(props: { readonly lane: LaneId }) {
  const desk = useDesk();
  const { session } = desk;
  const lane = () => session.board.lanes[props.lane];
  const here = createMemo(() => {
    const place = desk.slotPlace();
    if (place?.lane !== props.lane) return undefined;
    const [found, grip] = [
      slotWithBar(session.board.sections, place.slot),
      lane().grips.get(place.slot),
    ];
    return found && grip && { ...found, grip };
  });
  const change = (list: "liked" | "never", grip: Grip) =>
    session.lane()?.setWishes(gripChange(lane().wishes, list, grip));
  const isOn = (list: "liked" | "never", grip: Grip) =>
    lane().wishes[list].some((each) => sameGrip(each, grip));
  const isFull = () => lane().wishes.liked.length + lane().wishes.never.length >= wishedGripsMax;
  return (
    <>
      <Show when={here()} fallback={<p class="soft">{wishWords.noGripHere}</p>}>
        {(at) => (
          <fieldset class="fit-here" aria-label={wishWords.gripHere}>
            <p>
              <span class="strong">{printGrip(at().grip)}</span>{" "}
              <span class="soft">{pretty(wishWords.here(at().slot.text, at().bar.number))}</span>
            </p>
            <div class="fit-toggles">
              <LockButton lane={props.lane} slot={at().slot.id} words={wishWords.lock} />
              <For each={["liked", "never"] as const}>
                {(list) => (
                  <button
                    type="button"
                    class="button small"
                    aria-pressed={isOn(list, at().grip)}
                    disabled={isFull() && !isOn(list, at().grip)}
                    onClick={() => change(list, at().grip)}
                  >
                    {list === "liked" ? wishWords.like : wishWords.ban}
                  </button>
                )}
              </For>
            </div>
          </fieldset>
        )}
      </Show>
      <Show when={isFull()}>
        <p class="soft">{wishWords.gripsFull(wishedGripsMax)}</p>
      </Show>
      <For each={["liked", "never"] as const}>
        {(list) => (
          <Show when={lane().wishes[list].length > 0}>
            <fieldset class="fit-toggles" aria-label={wishWords[list]}>
              <span class="strong">{wishWords[list]}</span>
              <For each={lane().wishes[list]}>
                {(grip) => (
                  <button
                    type="button"
                    class="button small"
                    aria-label={wishWords.takeOff(printGrip(grip))}
                    onClick={() => change(list, grip)}
                  >
                    {printGrip(grip)} ×
                  </button>
                )}
              </For>
            </fieldset>
          </Show>
        )}
      </For>
      <Show when={lane().wishes.locked.size > 0}>
        <div class="fit-toggles">
          <span>{wishWords.locked(lane().wishes.locked.size)}</span>
          <button
            type="button"
            class="button small"
            onClick={() => session.lane()?.setWishes({ locked: new Set() })}
          >
            {wishWords.unlockAll}
          </button>
        </div>
      </Show>
    </>
  );
}
