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
import { createNeckSlot } from "./neck-slot.ts";
import { createNeckView } from "./neck-view.ts";
import { ReadOnlyWords } from "./ReadOnlyWords.tsx";
import { SetupDialog } from "./SetupDialog.tsx";

/** Read-only on a lane that is not one's own. */
export function NeckPanel(props: { readonly place: SlotPlace }) {
  const desk = useDesk();
  const slot = createNeckSlot(desk, () => props.place);
  const view = createNeckView();
  const [isSettingUp, setSettingUp] = createSignal(false);
  return (
    <section class="neck-panel" data-lane={props.place.lane} aria-labelledby="neck-title">
      <NeckHead slot={slot} />
      <Show when={!slot.mayWrite()}>
        <ReadOnlyWords lane={props.place.lane} />
      </Show>
      <Neck slot={slot} view={view} />
      <NeckOptions slot={slot} view={view} onSetUp={() => setSettingUp(true)} />
      <GripSummary slot={slot} />
      <Show when={slot.mayWrite()}>
        <GripField slot={slot} />
      </Show>
      <Show when={slot.mayWrite()}>
        <Candidates slot={slot} />
        <BarWishes slot={slot} />
      </Show>
      <Show when={isSettingUp()}>
        <SetupDialog slot={slot} onClose={() => setSettingUp(false)} />
      </Show>
    </section>
  );
}
