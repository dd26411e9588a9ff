/** What page and server hold each other to: sizes in bytes, counts, rates and times. */

const KiB = 1024;
const MiB = 1024 * KiB;

// Frames on a socket.
/** A WebSocket frame; 20,000 offline edits come to about 190 KiB. */
export const frameBytesMax = 1 * MiB;
/** One edit as it is made. Whatever is missing after a reconnect may fill a whole frame. */
export const updateBytesMax = 256 * KiB;
export const awarenessBytesMax = 4 * KiB;
/** Objects and lists inside one another in a presence state; the state itself is 1. */
export const awarenessDepthMax = 6;
/** Entries in one awareness frame: the stock client passes on what it heard about others. */
export const awarenessEntriesMax = 256;
/** How far a presence clock may go ahead in one step; it moves about four times a minute. */
export const awarenessClockStepMax = 100_000;
export const awarenessClockMax = 2 ** 31 - 1;

// Content of an update.
export const structsMax = 200_000;
/**
 * Client ids that are new content's authors in one update: a week offline is about 140 page loads.
 */
export const clientsPerUpdateMax = 512;
export const clientsPerDocumentMax = 20_000;
/** Lists and objects inside one another in a value. */
export const valueDepthMax = 64;
/** Shared types inside one another; a board's own lie six deep. */
export const typeDepthMax = 64;
export const clientIdMax = 2 ** 32 - 1;
export const clockMax = 2 ** 31 - 1;
/** Everything stored for one document. */
export const documentBytesMax = 16 * MiB;
/** Everything stored for the four documents of a board; a full board has some 600 KiB. */
export const boardBytesMax = 32 * MiB;

// Rates.
export const messagesPerSecond = 60;
export const messagesBurst = 300;
/** With more unread, a socket is sent nothing of others until it has read; then all at once. */
export const behindBytesMax = 1 * MiB;
/** Unread bytes kept for a socket that does not read; one large answer is let be. */
export const bufferedBytesMax = 4 * MiB;
/** Updates of all sockets together that the server keeps while they wait for the store. */
export const unsavedBytesMax = 8 * MiB;
/**
 * Updates of all sockets together that wait for the server to have read what other nodes stored;
 * those of one document are held to `unsavedBytesMax`.
 */
export const lateBytesMax = 64 * MiB;
/** Frames that come while their document is still being opened: of one socket, and of all. */
export const earlyBytesPerSocketMax = 4 * frameBytesMax;
export const earlyBytesMax = 64 * MiB;
/** Messages of all sockets of a board together: fifty that send as fast as one may. */
export const messagesPerBoardPerSecond = 3_000;
export const messagesPerBoardBurst = 10_000;
/** What each socket may say besides, so that nobody is closed for what others send. */
export const messagesLetBePerSecond = 20;
export const messagesLetBeBurst = 200;
/** Answers to one socket for which more than `searchedBytesLarge` are gone through. */
export const searchesPerSecond = 1;
export const searchesBurst = 5;
export const searchedBytesLarge = 64 * KiB;
/** Bytes of documents gone through for the answers to all sockets: some 15 to 40 ms for a MiB. */
export const searchedBytesPerSecond = 8 * MiB;
export const searchedBytesBurst = 32 * MiB;
/** So little is gone through for whoever asks, and not counted. */
export const searchedBytesFree = 2 * KiB;
/** Open sockets of a board: four for each tab, so 256 tabs. */
export const socketsPerBoardMax = 1_024;
/** Open sockets of the server, over all boards. */
export const socketsPerServerMax = 10_000;
/** Sockets of one member in one document: tabs, devices, and dead lines not yet noticed. */
export const seatsPerMemberMax = 32;

// Playing together.
/** Of the tempo that the board says. */
export const togetherPercentMin = 40;
export const togetherPercentMax = 150;
export const togetherCountInMax = 4;
export const togetherTickMax = 2 ** 31 - 1;
/** How far from now a moment may lie that is asked for: four slow bars are counted in. */
export const togetherReachMs = 10 * 60_000;
/** A word older than this is no longer told to whoever comes. */
export const togetherLastsMs = 4 * 60 * 60_000;
export const togetherAsksPerSecond = 5;
export const togetherAsksBurst = 30;
export const clockQuestionsPerSecond = 25;
export const clockQuestionsBurst = 100;

// Times.
/** A message at least this often, or the stock client takes the line for dead after 30 s. */
export const keepAliveMs = 25_000;
export const savedEveryMs = 100;

// Requests.
export const bodyBytesMax = 16 * KiB;
export const copyBytesMax = 4 * MiB;
/**
 * In characters as a person counts them, after trimming; of emoji and other wide ones fewer, since
 * a name is held to the board's `nameMax` too.
 */
export const memberNameMax = 40;
export const membersPerBoardMax = 64;
/** Changes of names, lanes and the lead: of one member of a board, and of all its members. */
export const memberChangesPerMinute = 20;
export const memberChangesDaily = 200;
export const boardChangesDaily = 2_000;
/** Boards that one browser's session leads. */
export const boardsPerMemberMax = 200;
/** Boards made from one address in a day, whoever makes them. */
export const boardsPerAddressDaily = 300;
/** Boards that a server, or nodes over one database, keep. */
export const boardsPerServerMax = 50_000;
/** Besides those that bring members to their own devices. */
export const linksPerBoardMax = 200;
export const linkDaysMax = 90;
export const linkDaysUsual = 14;
export const linkUsesMax = 100;
export const linkUsesUsual = 10;
/** A link that brings the same member to another device. */
export const selfLinkDays = 1;
export const selfLinkUses = 1;
/** Of one member on one board; a new one takes the place of the oldest. */
export const selfLinksPerMemberMax = 3;

// Takes.
/** A minute and its lead of plain samples in one channel; as browsers record it, about a sixth. */
export const takeBytesMax = 8 * MiB;
/** What is said about a take, before its sound. */
export const takeHeadBytesMax = 48 * KiB;
export const takesPerBoardMax = 48;
export const takeBytesPerBoardMax = 64 * MiB;
/** Takes that one member may send in a minute. */
export const takesPerMinute = 6;
/** Takes on their way in at the same time: from one member, and from one address. */
export const takesPerMemberAtOnceMax = 1;
export const takesPerAddressAtOnceMax = 4;
/** Takes that the server reads at the same time, counted once it has read what is said of them. */
export const takesAtOnceMax = 8;
/**
 * Recordings on their way out at the same time: to one member, whose page may fetch all of a board
 * at once, to one address, and in all. The server holds a slice of each.
 */
export const recordingsPerMemberMax = takesPerBoardMax;
export const recordingsPerAddressMax = 2 * takesPerBoardMax;
export const recordingsAtOnceMax = 128;
/** A line ends on which nothing of a recording has gone on for so long. */
export const recordingStillMs = 30_000;
