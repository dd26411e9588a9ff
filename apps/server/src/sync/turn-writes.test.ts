/** One write a turn: nothing is left behind, and nothing waits beyond its turn. */
import { PassThrough } from "node:stream";
import { expect, test } from "vitest";
import { TurnWrites } from "./turn-writes.ts";

function counted() {
  const groups: number[] = [];
  const connection = new PassThrough();
  connection._writev = (chunks, done) => {
    groups.push(chunks.length);
    done();
  };
  connection._write = (_chunk, _encoding, done) => {
    groups.push(1);
    done();
  };
  return { connection, groups, writes: new TurnWrites(connection) };
}

const edit = new TextEncoder().encode("edit");
const turnOver = () => new Promise((resolve) => setImmediate(resolve));

test("writes of one turn go out together, those of the next by themselves", async () => {
  const { groups, writes } = counted();
  for (const turn of [3, 2]) {
    for (let i = 0; i < turn; i += 1) {
      writes.write(edit);
    }
    await turnOver();
  }
  expect(groups).toEqual([3, 2]);
});

test("what is ended within the turn has everything written before", async () => {
  const { connection, groups, writes } = counted();
  for (let i = 0; i < 2; i += 1) {
    writes.write(edit);
  }
  writes.flush();
  connection.end();
  await turnOver();
  expect(groups).toEqual([2]);
  expect(connection.writableFinished).toBe(true);
});

test("what is written on a connection that ended meanwhile is let go", async () => {
  const { connection, groups, writes } = counted();
  const faults: unknown[] = [];
  connection.on("error", (fault) => faults.push(fault));
  writes.write(edit);
  expect(writes.bytes).toBe(edit.length);
  connection.end();
  await turnOver();
  expect([groups, faults, writes.bytes]).toEqual([[], [], 0]);
});
