/** The head of every panel beside the board: what it is about, the way on, and the way out. */
import "./SidePanel.css";
import { type JSX, Show } from "solid-js";

/** The way from one place to the next, with the panel open. */
export type Walk = {
  readonly previous: string;
  readonly next: string;
  /** Where one is among so many; -1 = nowhere. */
  readonly index: number;
  readonly count: number;
  readonly onWalk: (by: 1 | -1) => void;
};

/** `id` is the one by which the panel takes its name from the title. */
export function SideHead(props: {
  readonly id: string;
  readonly titleClass: string;
  readonly title: JSX.Element;
  /** Under the title. */
  readonly more?: JSX.Element;
  readonly walk?: Walk;
  readonly close: string;
  readonly onClose: () => void;
}) {
  return (
    <header class="side-head">
      <div class="side-about">
        <h2 id={props.id} class={props.titleClass}>
          {props.title}
        </h2>
        {props.more}
      </div>
      <div class="side-ways">
        <Show when={props.walk}>{(walk) => <Arrows {...walk()} />}</Show>
        <button type="button" class="button" onClick={() => props.onClose()}>
          {props.close}
        </button>
      </div>
    </header>
  );
}

function Arrows(props: Walk) {
  return (
    <>
      <button
        type="button"
        class="button bare"
        aria-label={props.previous}
        disabled={props.index <= 0}
        onClick={() => props.onWalk(-1)}
      >
        ←
      </button>
      <button
        type="button"
        class="button bare"
        aria-label={props.next}
        disabled={props.index < 0 || props.index >= props.count - 1}
        onClick={() => props.onWalk(1)}
      >
        →
      </button>
    </>
  );
}
