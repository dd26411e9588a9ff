/** W11: takes are kept, given out to members alone, bounded, and gone with their board. */
import { takeId } from "@halflap/board/ids";
import { readTalkState } from "@halflap/board/talk";
import { apiPath, type TakeCard, type TakesAnswer } from "@halflap/wire/api";
import { takeBytesMax, takeHeadBytesMax, takesPerMinute } from "@halflap/wire/limits";
import Sqlite from "better-sqlite3";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Band, type Bandmate, makeBand } from "../support/band.ts";
import { expectOk, refusalOf, Visitor } from "../support/browser-session.ts";
import { documentsOnDisk, everythingOnDisk } from "../support/disk.ts";
import { removeTestServer, startTestServer, type TestServer } from "../support/server.ts";
import { StockClient } from "../support/stock-client.ts";
import {
  keepTake,
  recordingOf,
  sendBody,
  takeBody,
  usualHead,
  wavOf,
} from "../support/take-sender.ts";

let server: TestServer;

beforeAll(async () => {
  server = await startTestServer();
});

afterAll(() => removeTestServer(server));

/** A band of its own: nobody's rate is used up by another test. */
const newBand = (): Promise<Band> => makeBand(server.address);

async function listOf({ leader, board }: Band) {
  const answer = await leader.visitor.ask("GET", apiPath.takes(board));
  return (expectOk(answer) as TakesAnswer).takes;
}

const inTalk = ({ board }: Band) => readTalkState(documentsOnDisk(server, board).talk).takes;

test("leader and player may record; a listener and a stranger may not", async () => {
  const band = await newBand();
  const stranger = new Visitor(server.address);
  await stranger.makeBoard("Zoe");
  const answers = [];
  for (const who of [band.leader.visitor, band.player.visitor, band.listener.visitor, stranger]) {
    answers.push(refusalOf(await sendBody(who, band.board, takeBody(wavOf(400)))));
  }
  expect(answers).toEqual([undefined, undefined, "not-allowed", "not-found"]);
  expect(await listOf(band)).toHaveLength(2);
});

test("every member hears a take; nobody else, under no board of their own", async () => {
  const band = await newBand();
  const sound = wavOf(1000, 7);
  const take = await keepTake(band.player.visitor, band.board, sound);
  for (const { visitor } of [band.leader, band.player, band.listener]) {
    expect((await visitor.ask("GET", apiPath.takes(band.board))).status).toBe(200);
    const answer = await recordingOf(visitor, band.board, take);
    expect(Buffer.from(await answer.arrayBuffer())).toEqual(sound);
  }
  const stranger = new Visitor(server.address);
  const { board } = await stranger.makeBoard("Zoe");
  expect((await recordingOf(stranger, band.board, take)).status).toBe(404);
  expect((await recordingOf(stranger, board, take)).status).toBe(404);
  expect((await recordingOf(new Visitor(server.address), band.board, take)).status).toBe(404);
  expect(refusalOf(await stranger.ask("DELETE", apiPath.take(board, take.id)))).toBe("not-found");
  const unknown = takeId("A".repeat(22));
  const asked = await band.leader.visitor.ask("GET", apiPath.take(band.board, unknown));
  expect(refusalOf(asked)).toBe("not-found");
});

test("its player and the leader may remove a take; others may not", async () => {
  const band = await newBand();
  const { leader, player, listener, board } = band;
  const byLeader = await keepTake(leader.visitor, board);
  const byPlayer = await keepTake(player.visitor, board);
  const remove = async (who: Visitor, { id }: typeof byLeader) =>
    refusalOf(await who.ask("DELETE", apiPath.take(board, id)));
  expect(await remove(listener.visitor, byPlayer)).toBe("not-allowed");
  expect(await remove(player.visitor, byLeader)).toBe("not-allowed");
  expect(await remove(player.visitor, byPlayer)).toBeUndefined();
  expect(await remove(player.visitor, byPlayer)).toBe("not-found");
  const another = await keepTake(player.visitor, board);
  expect(await remove(leader.visitor, another)).toBeUndefined();
  expect((await listOf(band)).map(({ id }) => id)).toEqual([byLeader.id]);
  expect(inTalk(band).map(({ id }) => id)).toEqual([byLeader.id]);
});

test("a take is read under its name as stored, longer or shorter than it came", async () => {
  const band = await newBand();
  const send = (name: string) => {
    const body = takeBody(wavOf(400), { ...usualHead, name });
    return sendBody(band.player.visitor, band.board, body);
  };
  expect(refusalOf(await send("\u{1d160}".repeat(13)))).toBe("bad-body");
  const names = ["\u{1d160}".repeat(10), "A\u030a".repeat(40)];
  for (const name of names) expectOk(await send(name));
  const stored = new Set(names.map((name) => name.normalize("NFC")));
  expect(new Set((await listOf(band)).map(({ name }) => name))).toEqual(stored);
  expect(new Set(inTalk(band).map(({ name }) => name))).toEqual(stored);
});

test("a take whose words were damaged is removed by its player or the leader alone", async () => {
  const { leader, player, listener, board } = await newBand();
  const made = [await keepTake(player.visitor, board), await keepTake(player.visitor, board)];
  const db = new Sqlite(server.file);
  db.prepare("UPDATE takes SET head = '{' WHERE board = ?").run(board);
  db.close();
  const remove = async ({ visitor }: Bandmate, take: TakeCard | undefined) =>
    take && refusalOf(await visitor.ask("DELETE", apiPath.take(board, take.id)));
  expect(await remove(listener, made[0])).toBe("not-allowed");
  expect(await remove(player, made[0])).toBeUndefined();
  expect(await remove(player, made[0])).toBe("not-found");
  expect(await remove(leader, made[1])).toBeUndefined();
  expect(await remove(leader, made[1])).toBe("not-found");
});

test("a new take and its end reach an open page through talk", async () => {
  const { board, listener, player } = await newBand();
  const page = await StockClient.of(listener.visitor, board, "talk");
  const takes = () => readTalkState(page.doc).takes;
  const take = await keepTake(player.visitor, board);
  await page.until(() => takes().length === 1);
  const { id, at } = take;
  expect(takes()).toEqual([{ ...usualHead, id, at, from: player.me.id }]);
  await player.visitor.ask("DELETE", apiPath.take(board, id));
  await page.until(() => takes().length === 0);
  page.close();
});

test("a recording is given out as what it is, whole or in part, and may be kept", async () => {
  const { board, leader } = await newBand();
  const sound = Buffer.concat([wavOf(44), Buffer.from("0123456789")]);
  const take = await keepTake(leader.visitor, board, sound);
  const whole = await recordingOf(leader.visitor, board, take);
  expect(Object.fromEntries(whole.headers)).toMatchObject({
    "content-type": "audio/wav",
    "content-disposition": `attachment; filename="take-${take.id}.wav"`,
    "x-content-type-options": "nosniff",
    "cache-control": "private, max-age=31536000, immutable",
    "accept-ranges": "bytes",
  });
  const part = async (range: string) => {
    const answer = await recordingOf(leader.visitor, board, take, { range });
    return [answer.status, answer.headers.get("content-range"), await answer.text()];
  };
  expect(await part("bytes=44-47")).toEqual([206, "bytes 44-47/54", "0123"]);
  expect(await part("bytes=-2")).toEqual([206, "bytes 52-53/54", "89"]);
  expect((await part("bytes=54-")).slice(0, 2)).toEqual([416, "bytes */54"]);
  const etag = whole.headers.get("etag") ?? "";
  const again = await recordingOf(leader.visitor, board, take, { "if-none-match": etag });
  expect(again.status).toBe(304);
});

test("a recording may be as long as the limit, and not a byte longer", async () => {
  const band = await newBand();
  const { visitor } = band.leader;
  expect((await keepTake(visitor, band.board, wavOf(takeBytesMax))).size).toBe(takeBytesMax);
  const over = takeBody(wavOf(takeBytesMax + 1));
  expect(refusalOf(await sendBody(visitor, band.board, over))).toBe("too-large");
  const inPieces = { "transfer-encoding": "chunked" };
  expect(refusalOf(await sendBody(visitor, band.board, over, inPieces))).toBe("too-large");
  expect(await listOf(band)).toHaveLength(1);
});

const webm = Buffer.concat([
  Buffer.from([0x1a, 0x45, 0xdf, 0xa3]),
  Buffer.from("\x42\x82\x84webm....A_OPUS....", "latin1"),
]);

test.each<readonly [string, Buffer, string | undefined]>([
  ["WebM with Opus", webm, "audio/webm"],
  ["Ogg with Opus", Buffer.from(`OggS${"\0".repeat(24)}OpusHead`), "audio/ogg"],
  ["MP4 with AAC", Buffer.from("\0\0\0\x18ftypM4A ....soun....mp4a"), "audio/mp4"],
  ["WAV", wavOf(60), "audio/wav"],
  [
    "WebM with pictures only",
    Buffer.from(webm.toString("latin1").replace("A_OPUS", "V_VP9."), "latin1"),
    undefined,
  ],
  ["a page", Buffer.from("<!doctype html><script>alert(1)</script>"), undefined],
  ["a picture", Buffer.from("\x89PNG\r\n\x1a\n0000000000000000", "latin1"), undefined],
  ["RIFF that is no WAVE", Buffer.from("RIFF0000AVI LIST00000000"), undefined],
  ["a few bytes", Buffer.from("RIFF"), undefined],
  ["nothing", Buffer.alloc(0), undefined],
])("%s is told by its bytes, whatever its header says", async (_, sound, type) => {
  const { board, leader } = await newBand();
  const said = { "content-type": type === undefined ? "audio/webm" : "text/html" };
  const answer = await sendBody(leader.visitor, board, takeBody(sound), said);
  if (type === undefined) expect(refusalOf(answer)).toBe("not-sound");
  else expect(answer).toMatchObject({ status: 201, body: { take: { type } } });
});

test.each<readonly [string, unknown]>([
  ["no bars", { ...usualHead, bars: [] }],
  ["a bar that has no id", { ...usualHead, bars: [{ bar: "b 1", length: 192 }] }],
  ["longer than a minute", { ...usualHead, lengthMs: 60_001 }],
  ["no name", { ...usualHead, name: "   " }],
  ["a name that turns the line", { ...usualHead, name: "a\u202eb" }],
  ["somebody else's name under it", { ...usualHead, from: "somebody" }],
  ["nothing", null],
])("a take that is said to have %s is refused with words", async (_, head) => {
  const band = await newBand();
  const answer = await sendBody(band.leader.visitor, band.board, takeBody(wavOf(100), head));
  expect(refusalOf(answer)).toBe("bad-body");
  expect(await listOf(band)).toEqual([]);
});

test("what is said about a take is bounded", async () => {
  const { board, leader } = await newBand();
  const long = Buffer.alloc(takeHeadBytesMax + 10, "x");
  expect(refusalOf(await sendBody(leader.visitor, board, long))).toBe("bad-body");
});

test("one member sends so many in a minute; the others' are taken meanwhile", async () => {
  const { board, leader, player } = await newBand();
  for (let i = 0; i < takesPerMinute; i += 1) await keepTake(leader.visitor, board);
  const answer = await sendBody(leader.visitor, board, takeBody(wavOf(100)));
  expect(refusalOf(answer)).toBe("too-many");
  await keepTake(player.visitor, board);
});

test("another page can't send a take", async () => {
  const { board, leader } = await newBand();
  const origin = "https://elsewhere.example";
  const answer = await sendBody(leader.visitor, board, takeBody(wavOf(100)), { origin });
  expect(refusalOf(answer)).toBe("wrong-origin");
});

test("a take stays when its player leaves, and goes with its board", async () => {
  const band = await newBand();
  const { board, leader, player } = band;
  const mark = Buffer.from("sound that must be nowhere later");
  await keepTake(player.visitor, board, Buffer.concat([wavOf(44), mark]));
  await leader.visitor.ask("DELETE", apiPath.member(board, player.me.id));
  expect(inTalk(band)).toMatchObject([{ from: undefined, name: "Riff" }]);
  expect(everythingOnDisk(server)).toContain(mark.toString());
  expectOk(await leader.visitor.ask("DELETE", apiPath.board(board)));
  expect(everythingOnDisk(server)).not.toContain(mark.toString());
});
