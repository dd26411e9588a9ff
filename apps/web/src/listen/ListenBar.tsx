/**
 * The slat along the bottom from which the board is played: play and stop, where it is, how fast,
 * what goes round; and behind a button who plays, the practice file, and takes.
 */
import "./ListenBar.css";
import type { SectionId } from "@halflap/board/board";
import { createSignal, createUniqueId, Show } from "solid-js";
import { lazyPart } from "../app/lazy-part.tsx";
import { createRootSign } from "../app/root-sign.ts";
import { useDesk } from "../board/desk.ts";
import { listenWords, stateWords } from "../words/listen.ts";
import { togetherWords } from "../words/together.ts";
import { barWithSection } from "./bar-names.ts";
import { createFollowing } from "./create-following.ts";
import { useListening } from "./create-listening.ts";
import { createPedal } from "./create-pedal.ts";
import { createPracticeFile } from "./create-practice-file.ts";
import { PlayIcon, StopIcon } from "./icons.tsx";
import { LoopFields } from "./LoopFields.tsx";
import { createListenKeys } from "./listen-keys.ts";
import { isInForm } from "./sections-alone.ts";
import { TempoField } from "./TempoField.tsx";
import { TakesDrawer } from "./takes/TakesDrawer.tsx";
import { StartTogether } from "./together/StartTogether.tsx";
import { TogetherStrip } from "./together/TogetherStrip.tsx";

const SoundParts = lazyPart(async () => (await import("./DrawerParts.tsx")).SoundParts);
const FileParts = lazyPart(async () => (await import("./DrawerParts.tsx")).FileParts);

/** On a phone all but the first row waits behind its button. */
export function ListenBar() {
  const listening = useListening();
  const [isOpen, setOpen] = createSignal(false);
  const id = createUniqueId();
  createListenKeys(listening);
  const pedal = createPedal((action) => {
    if (action === "play") listening.toggle();
    else listening.step(action === "next" ? 1 : -1);
  });
  createFollowing(listening);
  createRootSign("sounding", () => listening.isOn());
  // Out here, so that closing the drawer does not end what is being made.
  const file = createPracticeFile();
  const main = () => {
    if (listening.together.isMeeting()) return togetherWords.stop;
    return listening.isOn() ? listenWords.stop : listenWords.play;
  };
  return (
    <section
      class="listen"
      aria-label={listenWords.name}
      data-open={isOpen() ? "" : undefined}
      data-on={listening.isOn() ? "" : undefined}
      onKeyDown={(event) => {
        if (event.key !== "Escape" || !isOpen()) return;
        event.stopPropagation();
        setOpen(false);
      }}
    >
      <div class="listen-more" id={id} hidden={!isOpen()}>
        <Show when={isOpen()}>
          <SoundParts pedal={pedal} onClose={() => setOpen(false)} />
        </Show>
        <div>
          <Show when={isOpen()}>
            <FileParts file={file} onClose={() => setOpen(false)} />
          </Show>
          <TakesDrawer isOpen={isOpen()} />
        </div>
      </div>
      <Show when={listening.wishes().loop && !isOpen()}>
        <p class="listen-reminder small soft">{listenWords.reminder}</p>
      </Show>
      <TogetherStrip />
      <div class="listen-row">
        <button
          type="button"
          class="button main listen-play"
          title={`${main()} (space)`}
          onClick={() => listening.toggle()}
        >
          <Show when={listening.isOn()} fallback={<PlayIcon />}>
            <StopIcon />
          </Show>
          {main()}
        </button>
        <Where />
        <div class="listen-quick">
          <TempoField />
          <LoopFields />
          <StartTogether />
        </div>
        <button
          type="button"
          class="button bare small listen-open"
          aria-expanded={isOpen()}
          aria-controls={id}
          onPointerEnter={() => void SoundParts.preload()}
          onFocus={() => void SoundParts.preload()}
          onClick={() => setOpen(!isOpen())}
        >
          {isOpen() ? listenWords.less : listenWords.more}
          <span class="spoken">{listenWords.moreSpoken}</span>
        </button>
      </div>
    </section>
  );
}

/** Where it plays, or would begin; in its place whatever has to be said. */
function Where() {
  const desk = useDesk();
  const listening = useListening();
  const says = () => stateWords(listening.state());
  const here = () => barWithSection(desk.session.board, listening.heard()?.bar);
  const from = () => barWithSection(desk.session.board, desk.place()?.bar);
  const place = () => {
    const found = here();
    const round = listening.heard()?.round ?? 1;
    const time = round > 1 ? listenWords.time(round) : undefined;
    const alone = (section: SectionId) =>
      isInForm(desk.session.board, section) ? "" : listenWords.alone;
    if (found) {
      const at = listenWords.at(found.bar.number, found.section.name, time);
      return `${at}${alone(found.section.id)}`;
    }
    if (listening.isOn()) return listening.isOver() ? listenWords.ringing : listenWords.countingIn;
    const start = from();
    if (start === undefined) return listenWords.fromStart;
    return `${listenWords.from(start.bar.number, start.section.name)}${alone(start.section.id)}`;
  };
  return (
    <div class="listen-where" data-says={says() === undefined ? undefined : ""}>
      <Show when={says() === undefined}>
        <p class="listen-place">{place()}</p>
      </Show>
      <p class="listen-state small" role="status">
        {says()}
      </p>
      <Show when={listening.state().kind === "held"}>
        <button type="button" class="button small" onClick={() => listening.wake()}>
          {listenWords.goOn}
        </button>
      </Show>
    </div>
  );
}
