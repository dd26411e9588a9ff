/** The tables in PostgreSQL: made once however many start, and a database that won't do is told. */
import pg from "pg";
import { afterEach, beforeEach, expect, test } from "vitest";
import { makeTrialDatabase } from "../trial-stores.ts";
import { schemaVersion } from "./schema.ts";
import { openPostgres } from "./store.ts";

let database: Awaited<ReturnType<typeof makeTrialDatabase>>;

beforeEach(async () => {
  database = await makeTrialDatabase();
});

afterEach(() => database.remove());

const opened = (address = database.address) =>
  openPostgres({ address, now: () => 1, onFault: () => undefined });

async function asked(text: string) {
  const client = new pg.Client({ connectionString: database.address });
  await client.connect();
  try {
    return (await client.query(text)).rows;
  } finally {
    await client.end();
  }
}

test("of five nodes that start at once on an empty database each finds it made", async () => {
  const stores = await Promise.all(Array.from({ length: 5 }, () => opened()));
  expect(await asked("SELECT version FROM halflap_schema")).toEqual([
    { version: String(schemaVersion) },
  ]);
  for (const store of stores) expect(await store.log.heads([])).toEqual([]);
  await Promise.all(stores.map((store) => store.close()));
});

test("a database of a newer server is left alone, with a sentence", async () => {
  await (await opened()).close();
  await asked(`UPDATE halflap_schema SET version = ${schemaVersion + 1}`);
  await expect(opened()).rejects.toThrow(
    `schema ${schemaVersion + 1}, made by a newer server; this one knows ${schemaVersion}`,
  );
  expect(await asked("SELECT version FROM halflap_schema")).toEqual([
    { version: String(schemaVersion + 1) },
  ]);
});

test("a database that gives up what it said to have stored is refused", async () => {
  const name = new URL(database.address).pathname.slice(1);
  await asked(`ALTER DATABASE ${name} SET synchronous_commit = off`);
  await expect(opened()).rejects.toThrow("synchronous_commit = off");
});

test("a database that can't be entered is told by its place, not its password", async () => {
  const elsewhere = (change: (url: URL) => void) => {
    const url = new URL(database.address);
    change(url);
    return opened(url.href).then(
      () => "opened",
      (fault: Error) => fault.message,
    );
  };
  const wrong = "never-to-be-told";
  const said = [
    await elsewhere((url) => {
      url.password = wrong;
    }),
    await elsewhere((url) => {
      url.port = "1";
      url.password = wrong;
    }),
    await elsewhere((url) => {
      url.pathname = "/nowhere";
    }),
  ];
  expect(said[0]).toMatch(/the database 127.0.0.1:\d+\/trial_\w+ can't be used: password/);
  expect(said[1]).toMatch(/127.0.0.1:1\/trial_\w+ can't be used: .*ECONNREFUSED/);
  expect(said[2]).toMatch(/nowhere can't be used: database "nowhere" does not exist/);
  for (const words of said) {
    expect(words).not.toContain(wrong);
    expect(words).not.toContain(new URL(database.address).password);
  }
});
