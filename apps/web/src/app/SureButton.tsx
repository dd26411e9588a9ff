/** A button for what can't be taken back: the first press asks, the second does it. */
import { createSignal, type JSX } from "solid-js";

/** Leaving the button takes the question back. */
export function SureButton(props: {
  readonly words: string;
  readonly sure: string;
  readonly onSure: () => void;
}): JSX.Element {
  const [asks, setAsks] = createSignal(false);
  return (
    <button
      type="button"
      class="button"
      classList={{ trouble: asks() }}
      onBlur={() => setAsks(false)}
      onClick={() => {
        if (asks()) props.onSure();
        setAsks(!asks());
      }}
    >
      {asks() ? props.sure : props.words}
    </button>
  );
}
