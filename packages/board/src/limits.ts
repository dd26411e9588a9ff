/** How much a board may hold: reading takes no more, editing and decoding refuse more. */
// Lengths of texts, in UTF-16 code units.
export const titleMax = 120;
export const nameMax = 60;
export const chordTextMax = 40;
export const markMax = 200;
export const ruleMax = 16;
export const reasonMax = 300;
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
export const silencesMax = 512;
export const silencedBarsMax = barsMax;
export const membersMax = 64;
/** Bars, and loose slots, that are kept in view without a place. */
export const setAsideMax = 2048;
/** Grips, lay-outs or marks of one lane. */
export const laneEntriesMax = 16_384;

// Ranges.
/** Beats a minute. */
export const tempoMin = 20;
export const tempoMax = 400;
export const meterBeatsMax = 32;
export const capoMax = 12;
export const lastFretMin = 12;
/** Open strings from C1 to C6: every fret of every lane then has a MIDI note. */
export const openPitchMin = 24;
export const openPitchMax = 84;
/** Millimetres. */
export const scaleLengthMin = 300;
export const scaleLengthMax = 1000;
