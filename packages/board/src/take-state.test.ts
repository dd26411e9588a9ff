/** B29: which takes are read from what the server wrote, or from anything else. */

import { ticks } from "@halflap/theory/units";
import { expect, test } from "vitest";
import * as Y from "yjs";
import { barId, takeId } from "./ids.ts";
import { decodeTakeHead, type StoredTake } from "./take.ts";
import { dropMember, dropTake, memberId, readTalkState, setMember, setTake } from "./talk.ts";

const ada = { id: memberId("ada"), name: "Ada", role: "leader" } as const;
const head = {
  name: "Riff",
  bars: [{ bar: barId("solo~b1"), length: ticks(192) }],
  offsetMs: 2310.5,
  lengthMs: 4000,
  tempo: 104,
};
const take: StoredTake = { ...head, id: takeId("t1"), from: ada.id, at: 1000 };

function talk(): Y.Doc {
  const doc = new Y.Doc();
  setMember(doc, ada);
  setTake(doc, take);
  return doc;
}

test("B29 a take reads as it was written, and the oldest comes first", () => {
  const doc = talk();
  const earlier = { ...take, id: takeId("t2"), at: 10 };
  setTake(doc, earlier);
  expect(readTalkState(doc).takes).toEqual([earlier, take]);
  dropTake(doc, earlier.id);
  expect(readTalkState(doc).takes).toEqual([take]);
});

test("B29 a take of somebody who has left stays, from nobody", () => {
  const doc = talk();
  dropMember(doc, ada.id);
  expect(readTalkState(doc).takes).toEqual([{ ...take, from: undefined }]);
});

test("B29 what can't be read is left out", () => {
  const doc = talk();
  const takes = doc.getMap<unknown>("takes");
  const wrongs = [{ bars: [] }, { name: " " }, { tempo: 0 }, { offsetMs: -1 }, { lengthMs: 1e9 }];
  for (const [i, wrong] of wrongs.entries()) {
    takes.set(`x${i}`, { from: "ada", at: 1, head: { ...head, ...wrong } });
  }
  takes.set("x", { from: "ada", at: "now", head });
  takes.set("no id", { from: "ada", at: 1, head });
  expect(readTalkState(doc).takes).toEqual([take]);
});

test("a fault says where it is", () => {
  const bars = [{ bar: "b 1", length: 192 }];
  expect(decodeTakeHead({ ...head, bars })).toMatchObject({ error: { path: "bars[0].bar" } });
  expect(decodeTakeHead({ ...head, extra: 1 })).toMatchObject({ error: { path: "extra" } });
});
