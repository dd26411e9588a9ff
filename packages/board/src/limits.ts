/** How much a board may hold: reading takes no more, editing and decoding refuse more. */
// Lengths of texts, in UTF-16 code units.
export const titleMax = 120;
export const nameMax = 60;
/** As long as the longest chord symbol that is read. */
export const chordTextMax = 48;
export const markMax = 200;
export const ruleMax = 16;
export const reasonMax = 300;
export const endingMax = 120;
export const strumTextMax = 400;
/** The longest text of a fill or melody that is read. */
export const notesTextMax = 4000;
export const idMax = 64;
/** The longest chart text that is read. */
export const chartTextMax = 64 * 1024;

// Counts.
export const sectionsMax = 64;
/** Bars of the chart, borrowed ones included. */
export const barsMax = 512;
export const slotsPerBarMax = 32;
export const formEntriesMax = 128;
export const timesMax = 32;
/** Bars that the whole form plays, each as often as it comes: hours of music. */
export const formBarsMax = 4096;
export const silencesMax = 512;
export const silencedBarsMax = barsMax;
export const membersMax = 64;
/** Bars, and loose slots, that are kept in view without a place. */
export const setAsideMax = 2048;
/** Grips, lay-outs or marks of one lane, and whatever else hangs on its bars and slots. */
export const laneEntriesMax = 16_384;
export const strumsMax = 64;
/** Grips that are welcome in a lane, and grips that must not come. */
export const wishedGripsMax = 256;
/** Sets of strings that are wished: as many as six strings have. */
export const stringSetsMax = 63;
export const strumStepsMax = 96;
export const fillsMax = 512;
export const fillNotesMax = 128;
export const voicesMax = 16;
export const phrasesMax = 512;
export const sungNotesMax = 256;
export const gapOwnersMax = 512;
export const proposalsMax = 64;
/** A proposal may carry a grip for every slot of a long part. */
export const proposalEditsMax = 1024;
export const takesMax = 64;
/** A minute in the shortest bars, fast, is no more. */
export const takeBarsMax = 256;
/** Limits of the checker that a band may set for itself. */
export const ownLimitsMax = 128;

// Ranges.
/** Beats a minute. */
export const tempoMin = 20;
export const tempoMax = 400;
export const meterBeatsMax = 32;
/** Milliseconds of a take, and of the counting in that its recording holds before it. */
export const takeMsMax = 60_000;
export const takeLeadMsMax = 300_000;
/** Beats a minute: the slowest and the fastest board, slowed down or hurried. */
export const takeTempoMin = 5;
export const takeTempoMax = 800;
/** Bars counted in. */
export const countInMax = 4;
/** Ticks from the start of its bar to the start of a fill or phrase, and the longest of either. */
export const spanMax = 12_288;
/** Semitones that a string is bent up, in quarter tones. */
export const bendMin = 0.5;
export const bendMax = 4;
export const capoMax = 12;
export const lastFretMin = 12;
/** Open strings from C1 to C6: every fret of every lane then has a MIDI note. */
export const openPitchMin = 24;
export const openPitchMax = 84;
/** Millimetres. */
export const scaleLengthMin = 300;
export const scaleLengthMax = 1000;
