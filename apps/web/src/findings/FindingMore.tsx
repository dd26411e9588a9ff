/** What a picked finding opens: its notes, ways out, how it was measured, and silence. */
import type { Finding } from "@halflap/checker/finding";
import { createSignal, onMount, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { HearButton } from "../listen/HearButton.tsx";
import { findingsWords } from "../words/findings.ts";
import { listenWords } from "../words/listen.ts";
import { FindingMeasure } from "./FindingMeasure.tsx";
import { FindingNotes } from "./FindingNotes.tsx";
import { SilenceForm } from "./SilenceForm.tsx";
import { WaysOut } from "./WaysOut.tsx";

/** Tells `onShown` once it stands on the page, which has grown by it. */
export function FindingMore(props: { readonly finding: Finding; readonly onShown: () => void }) {
  const desk = useDesk();
  const [isSilencing, setSilencing] = createSignal(false);
  const mayBeSilenced = () => desk.session.mayEditChart() && !props.finding.isPraise;
  onMount(() => queueMicrotask(() => props.onShown()));
  const doneSilencing = (isSilenced: boolean) => {
    setSilencing(false);
    if (isSilenced) desk.pick(undefined);
  };
  const openNeck = () => {
    const place = desk.slotPlace();
    if (place) desk.openNeck(place);
  };
  return (
    <div class="finding-more">
      <FindingNotes finding={props.finding} />
      <WaysOut finding={props.finding} />
      <div class="finding-acts">
        <HearButton
          words={listenWords.hear}
          bars={props.finding.bars}
          lane={props.finding.lanes[0] ?? "upper"}
          edits={[]}
        />
        <button type="button" class="button small" onClick={openNeck}>
          {findingsWords.show}
        </button>
        <Show when={mayBeSilenced() && !isSilencing()}>
          <button type="button" class="button bare small" onClick={() => setSilencing(true)}>
            {findingsWords.silence}
          </button>
        </Show>
      </div>
      <Show when={isSilencing()}>
        <SilenceForm finding={props.finding} onDone={doneSilencing} />
      </Show>
      <FindingMeasure finding={props.finding} />
    </div>
  );
}
