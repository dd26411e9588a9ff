/** A place that takes a file: dropped on it, or picked through a button inside it. */
import { createSignal, type JSX, Show } from "solid-js";
import "./FileSlot.css";

/** `children` gets what opens the file picker. */
export function FileSlot(props: {
  readonly label: string;
  readonly onFile: (file: File) => void;
  readonly children: (pick: () => void) => JSX.Element;
}): JSX.Element {
  const [isOver, setOver] = createSignal(false);
  let input: HTMLInputElement | undefined;
  const take = (files: FileList | null | undefined) => {
    const file = files?.[0];
    if (file) props.onFile(file);
  };
  const onDrop = (event: DragEvent) => {
    setOver(false);
    if (!event.dataTransfer?.types.includes("Files")) return;
    event.preventDefault();
    take(event.dataTransfer.files);
  };
  return (
    <section
      class="file-slot"
      aria-label={props.label}
      onDragOver={(event) => {
        if (!event.dataTransfer?.types.includes("Files")) return;
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={(event) => {
        if (!event.currentTarget.contains(event.relatedTarget as Node | null)) setOver(false);
      }}
      onDrop={onDrop}
    >
      {props.children(() => input?.click())}
      <input
        ref={input}
        type="file"
        hidden
        accept=".json,.txt,application/json,text/plain"
        onChange={(event) => {
          take(event.currentTarget.files);
          event.currentTarget.value = "";
        }}
      />
      <Show when={isOver()}>
        <p class="file-slot-over large strong">{props.label}</p>
      </Show>
    </section>
  );
}
