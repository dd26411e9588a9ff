/** The links that are out there, with what each still opens, and a way to close it. */
import { For, type JSX, Show } from "solid-js";
import { linkRoleWords, shareWords } from "../words/share.ts";
import { isLive, termWords } from "./link-terms.ts";
import type { Links } from "./links.ts";

/** Live ones first come with a button; the others only say why they are none any more. */
export function LinkList(props: { readonly links: Links }): JSX.Element {
  const cards = () => {
    const now = new Date();
    return [...props.links.cards()]
      .map((card) => ({ card, live: isLive(card, now), words: termWords(card, now) }))
      .sort((a, b) => Number(b.live) - Number(a.live));
  };
  return (
    <section class="share-part" aria-labelledby="share-links">
      <h3 id="share-links" class="large strong">
        {shareWords.links}
      </h3>
      <Show when={cards().length > 0} fallback={<p class="soft">{shareWords.noLinks}</p>}>
        <ul class="share-rows">
          <For each={cards()}>
            {({ card, live, words }) => (
              <li class="share-row" data-live={live}>
                <p>
                  <span class="strong">{linkRoleWords[card.role].name}</span>
                  <span class="soft">, {words}</span>
                </p>
                <Show when={live}>
                  <button
                    type="button"
                    class="button trouble"
                    onClick={() => void props.links.revoke(card.id)}
                  >
                    {shareWords.revoke}
                  </button>
                </Show>
              </li>
            )}
          </For>
        </ul>
      </Show>
    </section>
  );
}
