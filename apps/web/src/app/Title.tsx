/** The title of the browser's tab while a page is shown. */
import { createEffect } from "solid-js";

/** Draws nothing. */
export function Title(props: { readonly text: string }): undefined {
  createEffect(() => {
    document.title = props.text;
  });
  return undefined;
}
