/**
 * The neck of the chosen slot: beside the board where there is room, a sheet from below on a
 * phone.
 */
import "./NeckPanel.css";
import { createSignal, Show } from "solid-js";
import { type SlotPlace, useDesk } from "../board/desk.ts";
import { BarWishes } from "./BarWishes.tsx";
import { Candidates } from "./Candidates.tsx";
import { GripField } from "./GripField.tsx";
import { GripSummary } from "./GripSummary.tsx";
import { Neck } from "./Neck.tsx";
import { NeckHead } from "./NeckHead.tsx";
import { NeckOptions } from "./NeckOptions.tsx";
import { createNarrow } from "./narrow.ts";
import { createNeckSlot, type NeckSlot } from "./neck-slot.ts";
import { createNeckView, type NeckView } from "./neck-view.ts";
import { ReadOnlyWords } from "./ReadOnlyWords.tsx";
import { SetupDialog } from "./SetupDialog.tsx";
import { VoiceTable } from "./VoiceTable.tsx";

type Parts = {
  readonly slot: NeckSlot;
  readonly view: NeckView;
  readonly onSetUp: () => void;
};

/** Read-only on a lane that is not one's own. */
export function NeckPanel(props: { readonly place: SlotPlace }) {
  const desk = useDesk();
  const slot = createNeckSlot(desk, () => props.place);
  const view = createNeckView();
  const [isSettingUp, setSettingUp] = createSignal(false);
  const isNarrow = createNarrow();
  const parts: Parts = { slot, view, onSetUp: () => setSettingUp(true) };
  return (
    <section
      class="side-panel neck-panel"
      data-lane={props.place.lane}
      aria-labelledby="neck-title"
    >
      <NeckHead slot={slot} />
      <Show when={!slot.mayWrite()}>
        <ReadOnlyWords lane={props.place.lane} />
      </Show>
      <Neck slot={slot} view={view} />
      <Show when={isNarrow()} fallback={<Spread {...parts} />}>
        <Stacked {...parts} />
      </Show>
      <Show when={isSettingUp()}>
        <SetupDialog slot={slot} onClose={() => setSettingUp(false)} />
      </Show>
    </section>
  );
}

/** Beside the board: the grip's voices right under the neck that they are read from. */
function Spread(props: Parts) {
  return (
    <>
      <NeckOptions {...props} />
      <Voices slot={props.slot} />
      <GripSummary slot={props.slot} />
      <Show when={props.slot.mayWrite()}>
        <GripField slot={props.slot} />
        <Candidates slot={props.slot} />
        <BarWishes slot={props.slot} />
      </Show>
    </>
  );
}

/** In a low sheet: what is chosen from comes before what is read about it. */
function Stacked(props: Parts) {
  return (
    <>
      <GripSummary slot={props.slot} />
      <Show when={props.slot.mayWrite()}>
        <GripField slot={props.slot} />
        <Candidates slot={props.slot} />
      </Show>
      <Voices slot={props.slot} />
      <NeckOptions {...props} />
      <Show when={props.slot.mayWrite()}>
        <BarWishes slot={props.slot} />
      </Show>
    </>
  );
}

function Voices(props: { readonly slot: NeckSlot }) {
  return (
    <Show when={props.slot.grip()}>{(grip) => <VoiceTable slot={props.slot} grip={grip()} />}</Show>
  );
}
