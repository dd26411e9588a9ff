/** Who sings around one bar, and whose fills the gaps are. */
import type { BarId } from "@halflap/board/board";

/** Lies beside the board where the neck would. */
export function SingingPanel(props: { readonly bar: BarId }) {
  return <section class="panel" data-bar={props.bar} />;
}
