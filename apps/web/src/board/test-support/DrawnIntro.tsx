/** The first section of the demo as the board draws it, in lines of two bars. */
import { For } from "solid-js";
import { fittedScale } from "../../seam/pitch-scale.ts";
import type { Session } from "../../session/session.ts";
import { SectionView } from "../SectionView.tsx";

/** Its bars follow the board. */
export function DrawnIntro(props: { readonly session: Session }) {
  return (
    <For each={props.session.board.sections.slice(0, 1)}>
      {(section) => (
        <SectionView
          section={section}
          index={0}
          perLine={2}
          scale={fittedScale([])}
          isPrinted={false}
        />
      )}
    </For>
  );
}
