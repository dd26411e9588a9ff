/** The place of the takes in the slat: filled when it is first opened, and from then on. */
import { createMemo, Show } from "solid-js";
import { lazyPart } from "../../app/lazy-part.tsx";
import { useDesk } from "../../board/desk.ts";
import { doTakesWait } from "./waiting-mark.ts";

// Recording and decoding stay out of the first visit.
const TakesPart = lazyPart(async () => (await import("./TakesPart.tsx")).TakesPart);

/** Filled at once where takes wait to be sent. */
export function TakesDrawer(props: { readonly isOpen: boolean }) {
  const desk = useDesk();
  const isFilled = createMemo((was: boolean) => was || props.isOpen, doTakesWait(desk.session.id));
  return (
    <Show when={isFilled()}>
      <TakesPart />
    </Show>
  );
}
