#!/usr/bin/env node
/** `halflap`: the checks and copies of the board on files, without a page. Needs no build step. */
import { register } from "tsx/esm/api";

register();
await import("../src/main.ts");
