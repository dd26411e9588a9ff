/** One link per role: made with one press, copied with another. */
import type { LinkRole } from "@halflap/wire/api";
import { For, type JSX, Show } from "solid-js";
import { CopyField } from "../app/CopyField.tsx";
import { linkRoleWords, shareWords } from "../words/share.ts";
import type { Links } from "./links.ts";

/** Whoever may not invite still gets a link for another device of their own. */
export function Invite(props: { readonly links: Links; readonly mayInvite: boolean }): JSX.Element {
  const roles = (): readonly LinkRole[] =>
    props.mayInvite ? ["player", "listener", "self"] : ["self"];
  return (
    <section class="share-part" aria-labelledby="share-invite">
      <h3 id="share-invite" class="large strong">
        {shareWords.invite}
      </h3>
      <p class="problem" role="alert">
        {props.links.problem() ?? ""}
      </p>
      <ul class="share-rows">
        <For each={roles()}>
          {(role) => (
            <li>
              <div class="share-row">
                <p>
                  <span class="strong">{linkRoleWords[role].name}</span>
                  <span class="soft">: {linkRoleWords[role].may}</span>
                </p>
                <button
                  type="button"
                  class="button"
                  aria-label={`${shareWords.make}: ${linkRoleWords[role].name}`}
                  onClick={() => void props.links.make(role)}
                >
                  {shareWords.make}
                </button>
              </div>
              <Show when={props.links.fresh()?.role === role && props.links.fresh()}>
                {(fresh) => (
                  <div class="share-fresh">
                    <CopyField label={shareWords.linkReady} text={fresh().address} />
                  </div>
                )}
              </Show>
            </li>
          )}
        </For>
      </ul>
    </section>
  );
}
