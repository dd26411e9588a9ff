/** The gaps between sung phrases, and whose fill each is. */
import type { GapOwner } from "@halflap/board/singing";
import { useDesk } from "../board/desk.ts";
import { singingWords } from "../words/singing.ts";
import { ChoiceList } from "./ChoiceList.tsx";
import { placeWords } from "./places.ts";
import type { SectionVoice } from "./section-voice.ts";

const owners: readonly GapOwner["owner"][] = ["upper", "lower", "both", "open"];

/** One choice a gap. */
export function GapList(props: { readonly voice: SectionVoice }) {
  const desk = useDesk();
  const words = (at: number) =>
    placeWords(props.voice.section()?.bars ?? [], at, props.voice.beat());
  return (
    <ChoiceList<GapOwner["owner"]>
      id="gaps-title"
      title={singingWords.gaps}
      hint={singingWords.gapsHint}
      none={singingWords.noGaps}
      open={singingWords.notSaid}
      questions={props.voice.gaps().map((gap) => ({
        words: singingWords.gap(words(gap.start), words(gap.end)),
        spoken: singingWords.whoseGap(words(gap.start)),
        answer: gap.owner,
        onAnswer: (owner) => props.voice.giveGap(gap, owner),
      }))}
      answers={owners.map((id) => ({ id, words: singingWords.owner[id] }))}
      isReadOnly={!desk.session.mayEditChart()}
    />
  );
}
