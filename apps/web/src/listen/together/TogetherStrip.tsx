/** Who plays for everybody, where they are, and whether this browser is along. */
import "./TogetherStrip.css";
import { type JSX, Match, Show, Switch } from "solid-js";
import { createRootSign } from "../../app/root-sign.ts";
import { useDesk } from "../../board/desk.ts";
import { togetherWords } from "../../words/together.ts";
import { barWithSection } from "../bar-names.ts";
import { useListening } from "../create-listening.ts";

/** Nothing while nobody plays for everybody. */
export function TogetherStrip(): JSX.Element {
  const { together } = useListening();
  createRootSign(
    "together",
    () =>
      together.isMeeting() || together.place() !== undefined || together.trouble() !== undefined,
  );
  return (
    <Switch>
      <Match when={together.isMeeting()}>
        <Along />
      </Match>
      <Match when={together.place()}>
        <Offered />
      </Match>
      <Match when={together.trouble()}>
        {(why) => (
          <div class="together" data-state="trouble">
            <p class="small" role="status">
              {togetherWords.trouble[why()]}
            </p>
          </div>
        )}
      </Match>
    </Switch>
  );
}

/** Others play: one press and this browser does too. */
function Offered(): JSX.Element {
  const desk = useDesk();
  const { together } = useListening();
  const here = () => barWithSection(desk.session.board, together.place()?.bar?.bar);
  const who = () => {
    const member = desk.session.board.members.find(({ id }) => id === together.by());
    if (member?.id !== desk.session.me().id) {
      return togetherWords.plays([member?.name ?? togetherWords.somebody]);
    }
    // Started here once, and left: the others go on, or another device of mine does.
    const names = together.others().map(({ name }) => name);
    return names.length > 0 ? togetherWords.plays(names) : togetherWords.playsElsewhere;
  };
  return (
    <section class="together" aria-label={togetherWords.name} data-state="offered">
      <p class="together-says">
        <span role="status">{who()}</span>
        {/* Beside what is announced: a bar number every second is nothing to listen to. */}
        <Show when={here()}>
          {(found) => <span>: {togetherWords.at(found().bar.number, found().section.name)}</span>}
        </Show>
      </p>
      <button type="button" class="button small" onClick={() => together.joinIn()}>
        {togetherWords.joinIn}
      </button>
    </section>
  );
}

/** This browser is along: with whom, how well, and the ways on. */
function Along(): JSX.Element {
  const desk = useDesk();
  const listening = useListening();
  const { together } = listening;
  const says = () => {
    const agreed = together.agreement();
    if (!together.isReachable()) return togetherWords.lost;
    if (agreed === undefined) return togetherWords.agreeing;
    const { partlyLost, alone } = togetherWords;
    if (!agreed.isCutOff) return company(agreed.withinMs) ?? alone;
    // Whoever is behind the lost part can't be seen: that nobody listens is not known then.
    return [partlyLost, company(agreed.withinMs)].filter(Boolean).join(" ");
  };
  /** Who else hears it, as far as is known; undefined where nobody is. */
  const company = (withinMs: number) => {
    const others = together.others();
    if (others.length === 0) return undefined;
    const theirs = Math.max(...others.map((other) => other.withinMs ?? 0));
    const names = others.map(({ name }) => name);
    return togetherWords.with(names, Math.ceil(withinMs) + theirs);
  };
  const target = () => {
    const bar = desk.place()?.bar;
    return bar === listening.heard()?.bar ? undefined : barWithSection(desk.session.board, bar);
  };
  return (
    <section class="together" aria-label={togetherWords.name} data-state="along">
      <p class="together-says" role="status">
        {says()}
      </p>
      <Show when={together.isReachable() && target()}>
        {(found) => (
          <button
            type="button"
            class="button bare small together-jump"
            title={togetherWords.jumpHint}
            onClick={() => together.jump(found().bar.id)}
          >
            {togetherWords.jump(found().bar.number)}
          </button>
        )}
      </Show>
      <button type="button" class="button bare small" onClick={() => together.dropOut()}>
        {togetherWords.leave}
      </button>
    </section>
  );
}
