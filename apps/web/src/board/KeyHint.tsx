/** The key of a button, as it is at the moment. */
import { Show } from "solid-js";
import { keyNames } from "../words/board.ts";
import { type KeyName, keyOf } from "./keys.ts";

/** Nothing where the key is switched off. */
export function KeyHint(props: { readonly name: KeyName }) {
  return <Show when={keyOf(props.name)}>{(key) => <kbd>{keyNames[key()] ?? key()}</kbd>}</Show>;
}
