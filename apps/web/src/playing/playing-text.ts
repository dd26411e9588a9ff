/** What a lane plays in a bar, said in words for whoever does not see it drawn. */
import type { BarAim, Lane, Meter } from "@halflap/board/board";
import { beatOf } from "@halflap/board/meter";
import type { Dynamic, FillNote, Strum } from "@halflap/board/playing";
import { playedWords } from "../words/played.ts";
import { beatName, withFractions } from "./beat-name.ts";
import type { SectionPass } from "./in-force.ts";
import type { FillFigure, PlayingFigure, StepFigure } from "./playing-figure.ts";

/** Everything beside strokes and fills. */
export type BarMarks = {
  readonly dynamic: Dynamic | undefined;
  readonly palmMute: boolean;
  readonly letRing: boolean;
  readonly aims: readonly BarAim[];
  readonly mark: string;
  /** What single passes through the section do differently, in words. */
  readonly passes: readonly string[];
};

/** "Strokes on 1, 2 and; fill on 3; palm mute"; "" where nothing is set. */
export function playingText(figure: PlayingFigure, marks: BarMarks, meter: Meter): string {
  const beat = beatOf(meter);
  const parts = [
    figure.rests ? playedWords.spokenRest : "",
    strokesText(figure.steps, beat),
    ...figure.fills.map((fill) => fillText(fill, beat)),
    marks.dynamic === undefined ? "" : playedWords.spokenDynamic(marks.dynamic),
    marks.palmMute ? playedWords.palmMute : "",
    marks.letRing ? playedWords.letRing : "",
    ...marks.aims.map((aim) => playedWords.aims[aim]),
    marks.mark,
    ...marks.passes,
  ];
  return parts.filter((part) => part !== "").join("; ");
}

/** What single passes do differently: "2nd time: lays out". */
export function passNotesOf(
  lane: Pick<Lane, "strums" | "strumming" | "restingPasses">,
  passes: readonly SectionPass[],
): readonly string[] {
  return passes.flatMap(({ entry, first, last }) => {
    const id = lane.strumming.passes.get(entry.id);
    const strum = id === undefined ? undefined : lane.strums.get(id);
    const rests = lane.restingPasses.has(entry.id);
    if (!rests && strum === undefined) return [];
    const what = rests ? playedWords.spokenRest : strum?.name || playedWords.unnamed;
    return [playedWords.passNote(first, last, what)];
  });
}

/** The strokes of a pattern by the beat, with what is special about each. */
export function strokesText(steps: readonly StepFigure[], beat: number): string {
  const strokes = steps.filter(({ step }) => step.kind === "stroke");
  const chokes = steps.filter(({ step }) => step.kind === "choke");
  const names = (each: readonly StepFigure[]) =>
    each.map((stroke) => `${beatName(stroke.start, beat)}${special(stroke)}`).join(", ");
  return [
    strokes.length === 0 ? "" : playedWords.spokenStrokes(names(strokes)),
    chokes.length === 0 ? "" : playedWords.spokenChokes(names(chokes)),
  ]
    .filter((part) => part !== "")
    .join("; ");
}

/** One step: "down, accent". */
export function stepText(step: Strum["steps"][number]): string {
  if (step.kind === "rest") return playedWords.rest;
  if (step.kind === "choke") return playedWords.choke;
  const weight = step.weight === "plain" ? [] : [playedWords.weights[step.weight]];
  const push = step.push ? [playedWords.push] : [];
  return [playedWords.ways[step.way], ...weight, ...push].join(", ");
}

/** A fill or line: where it starts, and its notes by string and fret. */
export function fillText({ fill, start, notes }: FillFigure, beat: number): string {
  const where = playedWords.spokenFill(playedWords.kinds[fill.kind], beatName(start, beat));
  if (fill.notes.length === 0) return `${where}, ${playedWords.noNotes}`;
  const said = notes.map(({ note }) => noteText(note));
  return `${where}: ${said.join(", ")}`;
}

/** One note: "string 2 fret 10, hammer-on". */
export function noteText(note: FillNote): string {
  const way =
    note.way === "pluck"
      ? []
      : note.way === "bend"
        ? [playedWords.bendBy(withFractions(note.bend / 2))]
        : [playedWords.fillWays[note.way]];
  const ring = note.letRing ? [playedWords.letRing] : [];
  return [playedWords.spokenNote(note.string, note.fret), ...way, ...ring].join(", ");
}

function special({ step }: StepFigure): string {
  if (step.kind === "choke") return "";
  const weight = step.weight === "plain" ? "" : ` ${playedWords.weights[step.weight]}`;
  return `${weight}${step.push ? ` ${playedWords.push}` : ""}`;
}
