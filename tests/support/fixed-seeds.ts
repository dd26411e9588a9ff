/**
 * Gives every property test the same seed, so that a run can be repeated; a failure prints it.
 * HALFLAP_TEST_SEED, a whole number, looks elsewhere.
 */
import fc from "fast-check";

const seed = Number(process.env.HALFLAP_TEST_SEED ?? 20_190_417);

fc.configureGlobal({ ...fc.readConfigureGlobal(), seed });
