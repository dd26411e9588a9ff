/** Who plays what on this board, and how others come in. */
import { mayTake } from "@halflap/wire/permissions";
import { type JSX, Show } from "solid-js";
import { Dialog } from "../app/Dialog.tsx";
import type { Session } from "../session/session.ts";
import { appWords } from "../words/app.ts";
import { shareWords } from "../words/share.ts";
import { Invite } from "./Invite.tsx";
import { LaneList } from "./LaneList.tsx";
import { LinkList } from "./LinkList.tsx";
import { createLinks } from "./links.ts";
import { MemberList } from "./MemberList.tsx";
import "./ShareDialog.css";

/** A sheet over the board; what the role does not allow is not shown. */
export function ShareDialog(props: {
  readonly session: Session;
  readonly onClose: () => void;
}): JSX.Element {
  const may = () => ({
    invite: mayTake(props.session.me().role, "invite"),
    seeLinks: mayTake(props.session.me().role, "see-links"),
  });
  // The dialog is drawn anew for each opening, so the board is read once.
  const links = createLinks(props.session.id, () => may().seeLinks);
  const isOffline = () => props.session.state().kind === "offline";
  return (
    <Dialog title={appWords.share} onClose={props.onClose}>
      <div class="share">
        <Show when={isOffline()}>
          <p class="strong problem">{shareWords.offline}</p>
        </Show>
        <LaneList session={props.session} />
        <Invite links={links} mayInvite={may().invite} />
        <Show when={may().seeLinks}>
          <LinkList links={links} />
        </Show>
        <MemberList session={props.session} />
      </div>
    </Dialog>
  );
}
