/** The wishes of a lane that are not the usual ones, each in a few words. */
import { type LaneWishes, usualWishes, type WishName } from "@halflap/board/wishes";
import { type Grip, printGrip } from "@halflap/theory/grip";
import { type Accidentals, pitchName } from "@halflap/theory/pitch";
import { wishWords } from "../words/wishes.ts";

/** "strings 4-3-2", "3 slots locked"; empty when nothing is wished. */
export function wishLines(wishes: LaneWishes, accidentals: Accidentals): readonly string[] {
  const note = (pitch: LaneWishes["lowest"]) => pitch && pitchName(pitch, accidentals);
  const { lowest, highest, lowestFret, highestFret, stringSets, rootless, capo } = wishes;
  const some = (is: boolean, words: () => string) => (is ? [words()] : []);
  return [
    ...some(wishes.leaveAsIs, () => wishWords.asItIs),
    ...some(lowest !== undefined || highest !== undefined, () =>
      wishWords.register(note(lowest), note(highest)),
    ),
    ...some(stringSets.length > 0, () => wishWords.strings(setsText(stringSets))),
    ...some(isSet(wishes, "stringsMin") || isSet(wishes, "stringsMax"), () =>
      wishWords.stringCount(wishes.stringsMin, wishes.stringsMax),
    ),
    ...some(lowestFret !== undefined || highestFret !== undefined, () =>
      wishWords.frets(lowestFret, highestFret),
    ),
    ...(capo === undefined ? [] : [wishWords.capoAt(capo)]),
    ...some(rootless !== undefined, () =>
      rootless === true ? wishWords.withoutRoots : wishWords.withRoots,
    ),
    ...some(!wishes.openStrings, () => wishWords.noOpen),
    ...some(wishes.keepTop, () => wishWords.topKept),
    ...some(wishes.liked.length > 0, () => wishWords.likes(gripsText(wishes.liked))),
    ...some(wishes.never.length > 0, () => wishWords.bans(gripsText(wishes.never))),
    ...some(wishes.locked.size > 0, () => wishWords.locked(wishes.locked.size)),
  ];
}

/** The change that takes a wish back; of the locks only the one on `slot` goes. */
export function letGo(
  wishes: LaneWishes,
  wish: WishName,
  slot: string | undefined,
): Partial<LaneWishes> {
  if (wish !== "locked" || slot === undefined) return { [wish]: usualWishes[wish] };
  return { locked: new Set([...wishes.locked].filter((each) => each !== slot)) };
}

function isSet(wishes: LaneWishes, wish: WishName): boolean {
  return wishes[wish] !== usualWishes[wish];
}

function setsText(sets: LaneWishes["stringSets"]): string {
  return sets.map((set) => set.join("-")).join(", ");
}

function gripsText(grips: readonly Grip[]): string {
  return grips.map(printGrip).join(", ");
}
