/** Who sings around one bar, where, and whose fills the gaps are. */
import "./SingingPanel.css";
import type { BarId } from "@halflap/board/board";
import { Show } from "solid-js";
import { useDesk } from "../board/desk.ts";
import { SideHead } from "../board/SideHead.tsx";
import { singingWords } from "../words/singing.ts";
import { GapList } from "./GapList.tsx";
import { MelodyFields } from "./MelodyFields.tsx";
import { SingerList } from "./SingerList.tsx";
import { SungGrid } from "./SungGrid.tsx";
import { createSectionVoice } from "./section-voice.ts";
import { VoiceList } from "./VoiceList.tsx";

/** Lies beside the board where the neck would; for players to change, for all to read. */
export function SingingPanel(props: { readonly bar: BarId }) {
  const desk = useDesk();
  const voice = createSectionVoice(desk, () => props.bar);
  return (
    <section class="side-panel singing-panel" aria-labelledby="singing-title">
      <SideHead
        id="singing-title"
        titleClass="heading"
        title={singingWords.title(voice.section()?.name ?? "")}
        close={singingWords.close}
        onClose={() => desk.closeSidePanel()}
      />
      <Show when={!desk.session.mayEditChart()}>
        <p class="small soft">{singingWords.readOnly}</p>
      </Show>
      <SungGrid voice={voice} />
      <SingerList voice={voice} />
      <GapList voice={voice} />
      <VoiceList />
      <MelodyFields voice={voice} />
    </section>
  );
}
