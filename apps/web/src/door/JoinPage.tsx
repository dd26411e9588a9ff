/** Coming in by a link: the secret after the # leaves the address at once, and a name is asked. */
import { A, useNavigate } from "@solidjs/router";
import { createSignal, type JSX, Show } from "solid-js";
import { Mark } from "../app/Mark.tsx";
import { Title } from "../app/Title.tsx";
import { remember, remembered, textValue } from "../session/remembered.ts";
import { server } from "../session/server.ts";
import { appWords } from "../words/app.ts";
import { doorWords, joinWords } from "../words/door.ts";
import { dropSecret, takeSecret } from "./link-secret.ts";
import "./JoinPage.css";

/** Redeems the link's secret under the name that is given, then opens the board. */
export function JoinPage(): JSX.Element {
  const navigate = useNavigate();
  const secret = takeSecret();
  const [name, setName] = createSignal(remembered("name", textValue) ?? "");
  const [isJoining, setJoining] = createSignal(false);
  const [problem, setProblem] = createSignal<string>();
  const [isLinkDead, setLinkDead] = createSignal(false);

  const onSubmit = async (event: SubmitEvent) => {
    event.preventDefault();
    const given = name().trim();
    if (given === "") return setProblem(doorWords.nameMissing);
    if (secret === undefined) return;
    remember("name", given);
    setJoining(true);
    const answer = await server.join(secret, given);
    setJoining(false);
    if (!answer.ok) {
      setProblem(answer.words);
      const isDead = answer.code.startsWith("link-");
      setLinkDead(isDead);
      if (isDead) dropSecret();
      return;
    }
    dropSecret();
    navigate(`/board/${answer.value.board}`, { replace: true });
  };
  return (
    <main class="join">
      <Title text={appWords.name} />
      <Mark gap={isLinkDead() || secret === undefined ? "wide" : "small"} />
      <h1 class="title">{joinWords.title}</h1>
      <Show
        when={secret !== undefined}
        fallback={
          <>
            <p class="large">{joinWords.incomplete}</p>
            <A class="link" href="/">
              {appWords.backToDoor}
            </A>
          </>
        }
      >
        <p class="large">{joinWords.lead}</p>
        <form class="join-form" onSubmit={onSubmit}>
          <label class="label" for="join-name">
            {doorWords.yourName}
          </label>
          <input
            id="join-name"
            class="field"
            maxlength={40}
            autocomplete="nickname"
            autofocus
            aria-invalid={problem() === doorWords.nameMissing}
            value={name()}
            onInput={(event) => setName(event.currentTarget.value)}
          />
          <p class="problem" role="alert">
            {problem() ?? ""}
          </p>
          <button type="submit" class="button main" disabled={isJoining()}>
            {isJoining() ? joinWords.joining : joinWords.join}
          </button>
        </form>
      </Show>
    </main>
  );
}
