/** Metrics: counted where it happens, told in Prometheus's form, on a port of their own. */
import { afterEach, expect, test } from "vitest";
import { type NewRow, rowId, StoreFull, type UpdateLog } from "../store/log-port.ts";
import { makeBoardId, makeMessageId } from "../store/secret.ts";
import { exposition } from "./exposition.ts";
import { gauges } from "./gauges.ts";
import { measured } from "./measured-log.ts";
import { type MetricsDoor, openMetricsDoor } from "./metrics-door.ts";
import { Tallies } from "./tallies.ts";

let door: MetricsDoor | undefined;
afterEach(() => door?.close());

const unasked = () => Promise.reject(new Error("not asked"));

function logThat(append: UpdateLog["append"]): UpdateLog {
  return {
    append,
    load: unasked,
    since: unasked,
    heads: unasked,
    compact: unasked,
    newest: unasked,
  };
}

function rowOf(bytes: number): NewRow {
  const key = { board: makeBoardId(), document: "board" } as const;
  return { key, message: makeMessageId(), update: new Uint8Array(bytes), bindings: [] };
}

test("commits are timed, updates counted by what became of them", async () => {
  let ms = 0;
  let isFull = false;
  const tallies = new Tallies();
  const { log, isTakingRows } = measured(
    logThat(async ([first, ...others]) => {
      ms += 30;
      if (isFull) throw new StoreFull("full");
      const stored = first === undefined ? [] : [{ kind: "stored" as const, row: rowId(1) }];
      return [...stored, ...others.map(() => ({ kind: "gone" as const }))];
    }),
    tallies,
    () => ms,
  );
  await log.append([rowOf(10), rowOf(20)]);
  expect(isTakingRows()).toBe(true);
  isFull = true;
  await expect(log.append([rowOf(5)])).rejects.toThrow(StoreFull);
  expect(isTakingRows()).toBe(false);
  tallies.refused("not-yours");
  const text = exposition(tallies.families());
  expect(text).toContain('halflap_updates_total{outcome="stored"} 1\n');
  expect(text).toContain('halflap_updates_total{outcome="gone"} 1\n');
  expect(text).toContain('halflap_updates_total{outcome="failed"} 1\n');
  expect(text).toContain("halflap_stored_bytes_total 10\n");
  expect(text).toContain('halflap_refusals_total{kind="not-yours"} 1\n');
  expect(text).toContain('halflap_append_seconds_bucket{le="0.025"} 0\n');
  expect(text).toContain('halflap_append_seconds_bucket{le="0.05"} 2\n');
  expect(text).toContain('halflap_append_seconds_bucket{le="+Inf"} 2\n');
  expect(text).toContain("halflap_append_seconds_count 2\n");
});

test("the text has a name, a meaning and a kind for each family, and escapes labels", () => {
  const labels = { kind: 'a "b"\n\\' };
  const text = exposition([
    { name: "n", help: "What.", type: "gauge", samples: [{ labels, value: 0.5 }] },
  ]);
  expect(text).toBe('# HELP n What.\n# TYPE n gauge\nn{kind="a \\"b\\"\\n\\\\"} 0.5\n');
});

test("the door answers /metrics and nothing else", async () => {
  const standing = {
    version: "1.2.3",
    rooms: () => 2,
    setAside: () => new Map([["talk", 1] as const]),
    sockets: () => 5,
    storeBytes: () => 4096,
  };
  door = await openMetricsDoor({ host: "127.0.0.1", port: 0 }, () => gauges(standing));
  const answer = await fetch(door.address);
  expect(answer.headers.get("content-type")).toContain("version=0.0.4");
  const text = await answer.text();
  expect(text).toContain('halflap_build{version="1.2.3"} 1\n');
  expect(text).toContain("halflap_rooms 2\n");
  expect(text).toContain("halflap_store_bytes 4096\n");
  expect(text).toContain('halflap_documents_set_aside{document="talk"} 1\n');
  expect(text).toContain('halflap_documents_set_aside{document="board"} 0\n');
  expect((await fetch(door.address.replace("/metrics", "/"))).status).toBe(404);
  expect((await fetch(door.address, { method: "POST" })).status).toBe(404);
});
