/**
 * Gives every property test the same seed, so that a run can be repeated; a failure prints it.
 * HALFLAP_TEST_SEED, a whole number, looks elsewhere.
 */
import fc from "fast-check";

fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: Number(process.env.HALFLAP_TEST_SEED ?? 20_190_417) });
