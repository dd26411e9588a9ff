/** Gives every property test the same seed, so that a run can be repeated; a failure prints it. */
import fc from "fast-check";

fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: 20_190_417 });
