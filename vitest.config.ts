/**
 * The test runs: `unit` beside the sources and for the house, `page` for what Solid draws, `laws`
 * for what takes many cases, the outside world or long, `stores` for what keeps boards, over real
 * databases, `wire` against real servers.
 */
import solid from "vite-plugin-solid";
import { defineConfig } from "vitest/config";

const everywhere = {
  setupFiles: ["./tests/support/fixed-seeds.ts"],
  // A machine that is busy is not a broken one: only what hangs is ended.
  testTimeout: 60_000,
  hookTimeout: 60_000,
};

/** What the house asks of every file; part of the quick check. */
const house = ["architecture", "style", "licenses", "tally"].map((name) => `tests/${name}.test.ts`);

/** Beside their sources, but too long for the quick check; among the laws instead. */
const long = ["packages/*/src/**/*-long.test.ts"];

const patientPages = "./apps/web/src/app/test-support/patient-pages.ts";

/** What needs a database of its own. */
const databases = ["apps/server/src/store/**/*.test.ts"];

export default defineConfig({
  test: {
    passWithNoTests: false,
    allowOnly: false,
    projects: [
      {
        test: {
          name: "unit",
          include: [
            "packages/*/src/**/*.test.ts",
            "apps/{server,cli}/src/**/*.test.ts",
            ...house,
            "tests/support/**/*.test.ts",
          ],
          exclude: [...databases, ...long],
          environment: "node",
          ...everywhere,
        },
      },
      {
        plugins: [solid()],
        test: {
          name: "page",
          include: ["apps/web/src/**/*.test.{ts,tsx}"],
          // A document costs a second: a test that needs one asks for it in its first comment.
          environment: "node",
          ...everywhere,
          setupFiles: [...everywhere.setupFiles, patientPages],
        },
      },
      {
        test: {
          name: "laws",
          include: ["tests/*.test.ts", "tests/reference/**/*.test.ts", ...long],
          exclude: [...house],
          environment: "node",
          ...everywhere,
        },
      },
      {
        test: {
          name: "stores",
          include: databases,
          environment: "node",
          globalSetup: ["./tests/support/stores-setup.ts"],
          ...everywhere,
        },
      },
      {
        test: {
          name: "wire",
          include: ["tests/{wire,faults}/**/*.test.ts"],
          environment: "node",
          ...everywhere,
          // Each file starts server processes of its own; side by side they would starve each
          // other.
          fileParallelism: false,
        },
      },
    ],
  },
});
