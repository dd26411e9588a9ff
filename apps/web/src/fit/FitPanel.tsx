/** Parts that are worked out: what is asked and wished, the answers side by side, taking one. */
import "./FitPanel.css";
import { Match, onMount, Show, Switch } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { SideHead } from "../board/SideHead.tsx";
import { fitWords } from "../words/fit.ts";
import { Answers } from "./Answers.tsx";
import { AskFields } from "./AskFields.tsx";
import { createFitting, type FitState } from "./create-fitting.ts";
import { Impossible } from "./Impossible.tsx";
import { RunLine } from "./RunLine.tsx";
import { WishPart } from "./WishPart.tsx";

/** What was asked and answered stays while the panel is closed. */
export function FitPanel(props: { readonly isOpen: boolean }) {
  const desk = useDesk();
  const fit = createFitting(desk, () => props.isOpen);
  return (
    <Show when={props.isOpen}>
      <OpenPanel fit={fit} />
    </Show>
  );
}

function OpenPanel(props: { readonly fit: FitState }) {
  const desk = useDesk();
  let panel: HTMLElement | undefined;
  onMount(() => {
    panel?.querySelector<HTMLElement>(".fit-start")?.focus({ preventScroll: true });
    document.querySelector(".board-side")?.scrollTo({ top: 0 });
  });
  const answers = () => {
    const result = props.fit.result();
    return result?.kind === "answers" ? result : undefined;
  };
  const impossible = () => {
    const result = props.fit.result();
    return result?.kind === "impossible" ? result : undefined;
  };
  return (
    <section ref={panel} class="side-panel fit-panel" aria-labelledby="fit-title">
      <SideHead
        id="fit-title"
        titleClass="heading"
        title={fitWords.title}
        close={fitWords.close}
        onClose={() => desk.closeSidePanel()}
      />
      <p class="small soft">{desk.session.mayEditChart() ? fitWords.intro : fitWords.readOnly}</p>
      <AskFields fit={props.fit} />
      <WishPart />
      <RunLine fit={props.fit} />
      <Switch>
        <Match when={answers()}>{(result) => <Answers fit={props.fit} result={result()} />}</Match>
        <Match when={impossible()}>
          {(result) => <Impossible fit={props.fit} result={result()} />}
        </Match>
      </Switch>
    </section>
  );
}
