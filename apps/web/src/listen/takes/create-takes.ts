/** The takes of a board as one person hears, records, keeps and removes them. */
import type { Take, TakeHead } from "@halflap/board/take";
import { mayTake } from "@halflap/wire/permissions";
import { createSignal } from "solid-js";
import { askBeforeLeaving } from "../../app/before-leaving.ts";
import type { Desk } from "../../board/desk.ts";
import { server } from "../../session/server.ts";
import { takeWords } from "../../words/takes.ts";
import { chartEnds } from "../bar-names.ts";
import type { Listening } from "../create-listening.ts";
import { createHeardTakes } from "./create-heard-takes.ts";
import { createRecording, type Draft } from "./create-recording.ts";
import { createSending } from "./create-sending.ts";
import { createTakeSounds } from "./create-take-sounds.ts";
import { recordingGain } from "./take-level.ts";

export type Takes = ReturnType<typeof createTakes>;

const draftVoice = "draft";

/** Lives as long as what it is made in. */
export function createTakes(desk: Desk, listening: Listening) {
  const { session } = desk;
  const [problem, setProblem] = createSignal<string>();
  const sounds = createTakeSounds(session.id);
  const { setDraft, ...heard } = createHeardTakes(desk, listening, sounds);
  const sending = createSending(session, (id, { key, head }) => {
    // Whoever recorded it wants to hear it, and has its sound already unless the page was left.
    sounds.rename(key, id);
    void sounds.load(id, head.offsetMs);
    heard.set(id, { isOn: true });
  });
  const recording = createRecording(desk, listening);
  // A draft is nowhere but in this page.
  const hasDraft = () => ["running", "finishing", "review"].includes(recording.state().kind);
  askBeforeLeaving(hasDraft, takeWords.leaveDraft);
  return {
    ...heard,
    recording,
    sending,
    problem,
    soundOf: sounds.stateOf,
    mayRecord: () => mayTake(session.me().role, "record-take"),
    mayRemove: ({ from }: Take) =>
      mayTake(session.me().role, "remove-any-take") ||
      (from === session.me().id && mayTake(session.me().role, "remove-own-take")),
    async remove(take: Take): Promise<void> {
      const answer = await server.removeTake(session.id, take.id);
      setProblem(answer.ok ? undefined : answer.words);
    },
    /** Lets a draft sound with the band from its first bar on. */
    hearDraft({ sound }: Draft, head: TakeHead): void {
      setDraft({ id: draftVoice, take: head, sound, gain: recordingGain(sound, head.offsetMs) });
      const names = head.bars.map(({ bar }) => bar);
      const ends = chartEnds(session.board, names);
      if (ends === undefined) return;
      const bars = { kind: "once", ...ends } as const;
      const whole = { lane: "upper", edits: [], slot: undefined, heard: "all" } as const;
      void listening.accompany({ bars, ...whole, countsIn: true });
    },
    /** While a draft sounds it follows its nudging. */
    nudgeDraft: (head: TakeHead) => setDraft((now) => now && { ...now, take: head }),
    leaveDraft: () => setDraft(undefined),
    keep({ blob, sound }: Draft, head: TakeHead): void {
      setDraft(undefined);
      const gain = recordingGain(sound, head.offsetMs);
      sounds.put(sending.keep(head, blob), { kind: "ready", sound, gain });
    },
  };
}
