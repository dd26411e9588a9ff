/** What waits behind the slat's button: who plays and how, the pedal, and the practice file. */
import { drawerWords } from "../words/listen-drawer.ts";
import type { PedalKeys } from "./create-pedal.ts";
import type { PracticeFile } from "./create-practice-file.ts";
import { FilePart } from "./FilePart.tsx";
import { HowPart } from "./HowPart.tsx";
import { PedalPart } from "./PedalPart.tsx";
import { PlayersPart } from "./PlayersPart.tsx";
import { NudgeField } from "./together/NudgeField.tsx";

/** Two columns: who plays, and how. */
export function SoundParts(props: { readonly pedal: PedalKeys }) {
  return (
    <>
      <div>
        <PlayersPart />
        <PedalPart keys={props.pedal} />
      </div>
      <div>
        <HowPart />
        <NudgeField />
      </div>
    </>
  );
}

/** The file, and a word about ears. */
export function FileParts(props: { readonly file: PracticeFile }) {
  return (
    <>
      <FilePart file={props.file} />
      <p class="listen-caution small soft">{drawerWords.caution}</p>
    </>
  );
}
