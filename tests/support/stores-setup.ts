/** Before the tests of stores: one PostgreSQL for all of them; each makes databases of its own. */
import { startPostgres, type TestPostgres } from "./postgres.ts";

let postgres: TestPostgres | undefined;

/** Starts it, and tells the tests where by a variable. */
export async function setup(): Promise<void> {
  postgres = await startPostgres();
  process.env.HALFLAP_TEST_POSTGRES = postgres.address;
}

/** Ends it. */
export async function teardown(): Promise<void> {
  await postgres?.remove();
}
