/** Who sings each round in which the form plays the section. */
import type { VoiceId } from "@halflap/board/ids";
import { useDesk } from "../board/desk.ts";
import { singingWords } from "../words/singing.ts";
import { ChoiceList } from "./ChoiceList.tsx";
import type { SectionVoice, SungRound } from "./section-voice.ts";

/** One choice a round. */
export function SingerList(props: { readonly voice: SectionVoice }) {
  const desk = useDesk();
  const name = () => props.voice.section()?.name ?? "";
  const choose = ({ entry, index: chosen }: SungRound, id: VoiceId | undefined) => {
    const singers = Array.from({ length: entry.times }, (_, index) =>
      index === chosen ? id : entry.singers[index],
    );
    desk.session.singing.setSingers(entry.id, singers);
  };
  const label = (index: number) =>
    singingWords.round(name(), index + 1, props.voice.rounds().length);
  return (
    <ChoiceList<VoiceId>
      id="singers-title"
      title={singingWords.who}
      none={singingWords.notInForm}
      open={singingWords.nobody}
      questions={props.voice.rounds().map((round, index) => ({
        words: label(index),
        spoken: singingWords.whoEach(label(index)),
        answer: round.entry.singers[round.index],
        onAnswer: (id) => choose(round, id),
      }))}
      answers={desk.session.board.voices.map(({ id, name: words }) => ({ id, words }))}
      isReadOnly={!desk.session.mayEditChart()}
    />
  );
}
