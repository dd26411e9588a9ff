/** Pages that hold nothing but a few words: opening, nothing here, gone wrong, no way in. */
import { type JSX, onMount, Show } from "solid-js";
import { appWords } from "../words/app.ts";
import { Mark } from "./Mark.tsx";
import { Title } from "./Title.tsx";
import "./Notices.css";

/** While something loads; appears only when that takes a while. */
export function Opening(): JSX.Element {
  return (
    <main class="notice notice-late">
      <Mark gap="small" />
      <p class="large soft" role="status">
        {appWords.opening}
      </p>
    </main>
  );
}

/** An address that leads nowhere. */
export function Nowhere(): JSX.Element {
  return <Notice title={appWords.nowhereTitle} words={appWords.nowhereHint} />;
}

/** A bug reached the page. */
export function Stumbled(props: { readonly error: unknown }): JSX.Element {
  onMount(() => console.error(props.error));
  return (
    <Notice title={appWords.failedTitle} words={appWords.failedHint}>
      <button type="button" class="button main" onClick={() => location.reload()}>
        {appWords.reload}
      </button>
    </Notice>
  );
}

/** A title, a sentence, and what can be done. */
export function Notice(props: {
  readonly title: string;
  readonly words: string;
  readonly children?: JSX.Element;
}): JSX.Element {
  return (
    <main class="notice">
      <Title text={appWords.name} />
      <Mark gap="wide" />
      <h1 class="heading">{props.title}</h1>
      <p class="large soft">{props.words}</p>
      <div class="notice-ways">
        <Show when={props.children}>{props.children}</Show>
        {/* A plain link: this also stands where no router is left. */}
        <a class="button" href="/">
          {appWords.backToDoor}
        </a>
      </div>
    </main>
  );
}
