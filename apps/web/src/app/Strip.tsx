/** A strip across the page: a sentence and what can be done about it. */
import type { JSX } from "solid-js";
import "./Strip.css";

/** `tone`: trouble is announced at once, a hint is only there. */
export function Strip(props: {
  readonly label: string;
  readonly words: string;
  readonly tone: "trouble" | "hint";
  readonly children: JSX.Element;
}): JSX.Element {
  return (
    <section class="strip" data-tone={props.tone} aria-label={props.label}>
      <p role={props.tone === "trouble" ? "alert" : undefined}>{props.words}</p>
      <div class="strip-acts">{props.children}</div>
    </section>
  );
}
