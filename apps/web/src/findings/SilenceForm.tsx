/** Agreeing to live with a finding, with a reason that the other player will read. */
import type { Finding } from "@halflap/checker/finding";
import { createSignal, onMount, Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { findingsWords } from "../words/findings.ts";

/** The reason may not be empty. */
export function SilenceForm(props: {
  readonly finding: Finding;
  readonly onDone: (isSilenced: boolean) => void;
}) {
  const desk = useDesk();
  const [reason, setReason] = createSignal("");
  const [isMissing, setMissing] = createSignal(false);
  let field: HTMLInputElement | undefined;
  onMount(() => field?.focus());
  const keep = (event: SubmitEvent) => {
    event.preventDefault();
    if (reason().trim() === "") {
      setMissing(true);
      field?.focus();
      return;
    }
    desk.session.chart.silence(props.finding.rule, props.finding.bars, reason().trim());
    props.onDone(true);
  };
  return (
    <form class="silence-form" onSubmit={keep}>
      <label>
        <span class="label small">{findingsWords.silenceLabel}</span>
        <input
          ref={field}
          class="field"
          maxlength="120"
          placeholder={findingsWords.silenceHint}
          value={reason()}
          aria-invalid={isMissing()}
          onInput={(event) => setReason(event.currentTarget.value)}
        />
      </label>
      <Show when={isMissing()}>
        <p class="problem small" role="alert">
          {findingsWords.reasonMissing}
        </p>
      </Show>
      <div class="finding-acts">
        <button type="submit" class="button small">
          {findingsWords.silenceConfirm}
        </button>
        <button type="button" class="button bare small" onClick={() => props.onDone(false)}>
          {findingsWords.cancel}
        </button>
      </div>
    </form>
  );
}
