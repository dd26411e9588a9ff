/** The strum pattern of the bar: which counts and why, its steps, and where else it is played. */
import { createEffect, createMemo, Match, on, Show, Switch } from "solid-js";
import { playedWords } from "../words/played.ts";
import { playingWords } from "../words/playing.ts";
import type { Playing } from "./create-playing.ts";
import { InterlockIdeas } from "./InterlockIdeas.tsx";
import { ReadyStrums } from "./ReadyStrums.tsx";
import { StepGrid } from "./StepGrid.tsx";
import { StrumLibrary } from "./StrumLibrary.tsx";
import { StrumPicture } from "./StrumPicture.tsx";
import { StrumPlaces } from "./StrumPlaces.tsx";
import { StrumSettings } from "./StrumSettings.tsx";
import { StrumText } from "./StrumText.tsx";

/** On a lane that is not one's own it shows the pattern and changes nothing. */
export function StrumPart(props: { readonly playing: Playing }) {
  let top: HTMLDivElement | undefined;
  // Whoever picks a pattern far down the list looks up at it.
  createEffect(
    on(
      () => props.playing.shown()?.id,
      () => top?.scrollIntoView({ block: "nearest" }),
      { defer: true },
    ),
  );
  return (
    <div class="playing-part">
      <div ref={top} class="strum-source">
        <Source playing={props.playing} />
      </div>
      <Show when={props.playing.mayWrite()} fallback={<Read playing={props.playing} />}>
        {/* An element of its own: what comes and goes here leaves the focused step in place. */}
        <div class="playing-part">
          <Spread playing={props.playing} />
          <div class="playing-group">
            <StepGrid playing={props.playing} />
            <StrumText playing={props.playing} />
          </div>
          <Show when={props.playing.shown()}>
            {(strum) => <StrumPlaces playing={props.playing} strum={strum()} />}
          </Show>
          <StrumSettings playing={props.playing} />
          <StrumLibrary playing={props.playing} />
          <InterlockIdeas playing={props.playing} />
          <ReadyStrums playing={props.playing} />
        </div>
      </Show>
    </div>
  );
}

/** Which pattern is shown, and from where it counts here. */
function Source(props: { readonly playing: Playing }) {
  const from = () => {
    const force = props.playing.inForce();
    if (force === undefined || force.strum !== props.playing.shown()) return playingWords.notHere;
    switch (force.from) {
      case "bar":
        return playingWords.fromBar;
      case "section":
        return playingWords.fromSection(props.playing.section()?.name ?? "");
      case "lane":
        return playingWords.fromLane;
    }
  };
  return (
    <p>
      <Switch>
        <Match when={props.playing.shown()}>
          {(strum) => (
            <>
              <span class="strong">{strum().name || playedWords.unnamed}</span>{" "}
              <span class="soft">{from()}</span>
            </>
          )}
        </Match>
        <Match when={props.playing.mayWrite()}>
          <span class="soft">{playingWords.none}</span>
        </Match>
        <Match when={true}>
          <span class="soft">{playingWords.noneRead}</span>
        </Match>
      </Switch>
    </p>
  );
}

/** How far a change would go, and the way to change this bar alone. */
function Spread(props: { readonly playing: Playing }) {
  const shared = createMemo(() => {
    const strum = props.playing.shown();
    const count = strum ? props.playing.barsWith(strum.id) : 0;
    return strum && count > 1 ? { strum, count } : undefined;
  });
  return (
    <Show when={shared()}>
      {(used) => (
        <div class="strum-spread">
          <p class="small">{playingWords.changesBars(used().count)}</p>
          <button
            type="button"
            class="button"
            disabled={!props.playing.hasRoomForStrum()}
            onClick={() => props.playing.vary(used().strum)}
          >
            {playingWords.vary}
          </button>
        </div>
      )}
    </Show>
  );
}

function Read(props: { readonly playing: Playing }) {
  return (
    <>
      <Show when={props.playing.shown()}>
        {(strum) => (
          <>
            <StrumPicture strum={strum()} beat={props.playing.beat()} />
            <p class="small soft">
              {playingWords.stepLength} {playingWords.stepLengths[strum().step]} ·{" "}
              {playingWords.feelIs(strum().feel)}
              {strum().palmMute ? ` · ${playingWords.patternPalmMute}` : ""}
            </p>
          </>
        )}
      </Show>
      <StrumLibrary playing={props.playing} />
      <InterlockIdeas playing={props.playing} />
    </>
  );
}
