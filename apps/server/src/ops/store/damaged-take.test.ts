/** A take whose words were damaged in the file: it alone is missing, and verify names it. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { decodeTakeHead } from "@halflap/board/take";
import type { Me, TakeCard } from "@halflap/wire/api";
import Sqlite from "better-sqlite3";
import { expect, test } from "vitest";
import { hashOf, makeBoardId, makeMemberId, makeSecret, makeTakeId } from "../../store/secret.ts";
import { openStore, storeFile } from "../../store/sqlite/store.ts";
import { forgetMember } from "./forget-member.ts";
import { memberReport } from "./member-report.ts";
import { verify } from "./verify.ts";

const board = makeBoardId();
const leader: Me = { id: makeMemberId(), name: "Ada", role: "leader" };
const head = decodeTakeHead({
  ...{ name: "Riff", bars: [{ bar: "solo~b1", length: 192 }] },
  ...{ offsetMs: 12.5, lengthMs: 4000, tempo: 104 },
});
if (!head.ok) throw new Error(head.error.words);
const said = head.value;
const sound = Buffer.alloc(64);

function card(at: number): TakeCard {
  const { length: size } = sound;
  return { id: makeTakeId(), from: leader.id, at, ...said, type: "audio/webm", size };
}

test.each(["{", '{"name":7}', ""])(
  "a take of whose words %j is left is missing, no other",
  async (words) => {
    const folder = mkdtempSync(join(tmpdir(), "halflap-damaged-"));
    const path = join(folder, storeFile);
    const place = { kind: "file", path: folder } as const;
    const opened = () => openStore({ path, pagesMax: undefined }, () => 1);
    const [sick, whole] = [card(1), card(2)];
    const store = opened();
    const session = hashOf(makeSecret());
    await store.people.makeBoard({ id: board, leader, session, at: 1, rows: [] });
    for (const each of [sick, whole]) await store.takes.keep({ board, card: each, sound });
    await store.close();

    const db = new Sqlite(path);
    db.prepare("UPDATE takes SET head = ? WHERE id = ?").run(words, sick.id);
    db.close();

    const again = opened();
    expect(await again.takes.list(board)).toEqual([whole]);
    expect(await again.takes.card(board, sick.id)).toBeUndefined();
    expect((await again.people.standing(board))?.takes).toEqual([whole]);
    await again.close();
    const report = await memberReport(place, leader.id);
    expect(report.memberships[0]?.takes.map(({ name }) => name)).toEqual(["", "Riff"]);
    expect((await verify(place)).faults).toContainEqual({
      ...{ board, part: `take ${sick.id}` },
      why: "what is said about it can't be read",
    });
    const asked = { member: leader.id, also: [], withBoards: true };
    expect((await forgetMember(place, asked, 1)).boards).toHaveLength(1);
    rmSync(folder, { recursive: true });
  },
);
