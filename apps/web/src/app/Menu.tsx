/**
 * A button and the small sheet that it opens beside itself; Escape and a click elsewhere close it.
 */
import { createSignal, createUniqueId, type JSX, Show } from "solid-js";
import "./Menu.css";

/** `content` is drawn only while the sheet is open; it gets a way to close it. */
export function Menu(props: {
  readonly label: string;
  readonly face: JSX.Element;
  readonly class?: string;
  readonly content: (close: () => void) => JSX.Element;
}): JSX.Element {
  const id = createUniqueId();
  const [isOpen, setOpen] = createSignal(false);
  let button: HTMLButtonElement | undefined;
  let sheet: HTMLDivElement | undefined;

  const onToggle = (event: ToggleEvent) => {
    const opens = event.newState === "open";
    setOpen(opens);
    if (!opens || button === undefined || sheet === undefined) return;
    const { left, right, bottom } = button.getBoundingClientRect();
    const fromRight = left + right > innerWidth;
    sheet.dataset.side = fromRight ? "right" : "left";
    sheet.style.setProperty("--beside", `${fromRight ? innerWidth - right : left}px`);
    sheet.style.setProperty("--below", `${bottom}px`);
  };
  return (
    <>
      <button
        ref={button}
        type="button"
        class={`button ${props.class ?? ""}`}
        popovertarget={id}
        aria-label={props.label}
        aria-expanded={isOpen()}
        title={props.label}
      >
        {props.face}
      </button>
      <div ref={sheet} id={id} class="menu-sheet" popover="auto" on:beforetoggle={onToggle}>
        <Show when={isOpen()}>{props.content(() => sheet?.hidePopover())}</Show>
      </div>
    </>
  );
}
