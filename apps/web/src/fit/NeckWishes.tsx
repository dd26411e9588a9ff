/** Wishes about the neck: register, frets, how many strings, capo, roots, what stays. */
import type { LaneId } from "@halflap/board/board";
import { capoMax } from "@halflap/board/limits";
import { type LaneWishes, usualWishes } from "@halflap/board/wishes";
import { pretty } from "@halflap/theory/display";
import { accidentalsOf } from "@halflap/theory/key";
import { pitchName } from "@halflap/theory/pitch";
import { openPitch, stringCount } from "@halflap/theory/tuning";
import { fret, type MidiNote, midiNote } from "@halflap/theory/units";
import { useDesk } from "../board/desk.ts";
import { wishWords } from "../words/wishes.ts";
import { Pick, Tick } from "./WishFields.tsx";
import { type Bound, boundChange } from "./wish-change.ts";

const rootChoices = [undefined, true, false] as const;

/** Each choice is kept at once, and can be undone like any edit. */
export function NeckWishes(props: { readonly lane: LaneId }) {
  const desk = useDesk();
  const { board } = desk.session;
  const lane = () => board.lanes[props.lane];
  const wishes = () => lane().wishes;
  const set = (change: Partial<LaneWishes>) => desk.session.lane()?.setWishes(change);
  const bound = <B extends Bound>(name: B, value: LaneWishes[B]) =>
    set(boundChange(wishes(), name, value));
  /** Every note of this guitar, the lowest first. */
  const pitches = (): readonly MidiNote[] => {
    const { tuning, lastFret } = lane().setup;
    const [low, high] = [openPitch(tuning, stringCount), openPitch(tuning, 1) + lastFret];
    return Array.from({ length: high - low + 1 }, (_, index) => midiNote(low + index));
  };
  const noteWords = (pitch: MidiNote | undefined) =>
    pitch === undefined ? wishWords.any : pretty(pitchName(pitch, accidentalsOf(board.key)));
  const frets = () => Array.from({ length: lane().setup.lastFret + 1 }, (_, at) => fret(at));
  const fretWords = (at: number | undefined) =>
    at === undefined ? wishWords.anyFret : wishWords.fretNumber(at);
  const capos = Array.from({ length: capoMax + 1 }, (_, at) => fret(at));
  const counts = Array.from({ length: stringCount }, (_, index) => index + 1);
  return (
    <>
      <div class="fit-pairs">
        <Pick
          label={wishWords.from}
          options={[undefined, ...pitches()]}
          words={noteWords}
          chosen={wishes().lowest}
          onChoose={(pitch) => bound("lowest", pitch)}
        />
        <Pick
          label={wishWords.to}
          options={[undefined, ...pitches()]}
          words={noteWords}
          chosen={wishes().highest}
          onChoose={(pitch) => bound("highest", pitch)}
        />
        <Pick
          label={wishWords.stringsFrom}
          options={counts}
          words={String}
          chosen={wishes().stringsMin}
          onChoose={(count) => bound("stringsMin", count)}
        />
        <Pick
          label={wishWords.stringsTo}
          options={counts}
          words={String}
          chosen={wishes().stringsMax}
          onChoose={(count) => bound("stringsMax", count)}
        />
        <Pick
          label={wishWords.fretFrom}
          options={[undefined, ...frets()]}
          words={fretWords}
          chosen={wishes().lowestFret}
          onChoose={(at) => bound("lowestFret", at)}
        />
        <Pick
          label={wishWords.fretTo}
          options={[undefined, ...frets()]}
          words={fretWords}
          chosen={wishes().highestFret}
          onChoose={(at) => bound("highestFret", at)}
        />
        <Pick
          label={wishWords.capo}
          options={[undefined, ...capos]}
          words={(at) => {
            if (at === undefined) return wishWords.capoStays;
            return at === 0 ? wishWords.noCapo : wishWords.fretNumber(at);
          }}
          chosen={wishes().capo}
          onChoose={(capo) => set({ capo })}
        />
        <Pick
          label={wishWords.rootless}
          options={rootChoices}
          words={(may) => {
            if (may === undefined) return wishWords.rootlessUsual;
            return may ? wishWords.yes : wishWords.no;
          }}
          chosen={wishes().rootless}
          onChoose={(rootless) => set({ rootless })}
        />
      </div>
      <p class="soft">{wishWords.fretsHint}</p>
      <Tick
        label={wishWords.openStrings}
        on={wishes().openStrings}
        onTurn={(openStrings) => set({ openStrings })}
      />
      <Tick
        label={wishWords.keepTop}
        on={wishes().keepTop}
        onTurn={(keepTop) => set({ keepTop })}
      />
      <Tick
        label={wishWords.leaveAsIs}
        on={wishes().leaveAsIs !== usualWishes.leaveAsIs}
        onTurn={(leaveAsIs) => set({ leaveAsIs })}
      />
    </>
  );
}
