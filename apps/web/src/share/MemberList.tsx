/** Everybody on the board; the leader can let go of members and hand the board over. */
import { laneIds, type Member } from "@halflap/board/board";
import { mayTake } from "@halflap/wire/permissions";
import { createSignal, For, type JSX, Show } from "solid-js";
import { SureButton } from "../app/SureButton.tsx";
import { type Answer, server } from "../session/server.ts";
import type { Session } from "../session/session.ts";
import { roleWords } from "../words/app.ts";
import { shareWords } from "../words/share.ts";
import { OwnName } from "./OwnName.tsx";

/** Whoever is newest comes last, as the board lists them. */
export function MemberList(props: { readonly session: Session }): JSX.Element {
  const [problem, setProblem] = createSignal<string>();
  const act = async (answer: Promise<Answer<unknown>>) => {
    const result = await answer;
    setProblem(result.ok ? undefined : result.words);
  };
  const isMe = (member: Member) => member.id === props.session.me().id;
  const laneOf = (member: Member) =>
    laneIds.find((lane) => props.session.board.lanes[lane].owner === member.id);
  return (
    <section class="share-part" aria-labelledby="share-members">
      <h3 id="share-members" class="large strong">
        {shareWords.members}
      </h3>
      <p class="problem" role="alert">
        {problem() ?? ""}
      </p>
      <ul class="share-rows">
        <For each={props.session.board.members}>
          {(member) => (
            <li class="share-row">
              <p class="share-lane">
                <span class="share-sign" data-lane={laneOf(member)} />
                <span class="strong">{member.name}</span>
                <span class="soft">
                  {isMe(member) ? `${shareWords.you}, ` : ""}
                  {roleWords[member.role]}
                </span>
              </p>
              <Show
                when={isMe(member)}
                fallback={<LeaderActs session={props.session} member={member} act={act} />}
              >
                <OwnName
                  name={member.name}
                  onName={(name) => void act(server.rename(props.session.id, name))}
                />
              </Show>
            </li>
          )}
        </For>
      </ul>
    </section>
  );
}

function LeaderActs(props: {
  readonly session: Session;
  readonly member: Member;
  readonly act: (answer: Promise<Answer<unknown>>) => void;
}): JSX.Element {
  const may = (action: "remove-member" | "hand-over-leader") =>
    mayTake(props.session.me().role, action);
  return (
    <div class="share-acts">
      <Show when={may("hand-over-leader") && props.member.role === "player"}>
        <SureButton
          words={shareWords.makeLeader}
          sure={shareWords.makeLeaderSure(props.member.name)}
          onSure={() => props.act(server.handLeader(props.session.id, props.member.id))}
        />
      </Show>
      <Show when={may("remove-member")}>
        <SureButton
          words={shareWords.remove}
          sure={shareWords.removeSure(props.member.name)}
          onSure={() => props.act(server.removeMember(props.session.id, props.member.id))}
        />
      </Show>
    </div>
  );
}
