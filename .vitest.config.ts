import { availableParallelism } from "node:os";
import { defineConfig } from "vitest/config";

/** Files that drive a browser, a built artifact or a whole command: each has a process of its own. */
const APART = ["tests/**/browser/**/*.test.{ts,tsx}", "tests/{cli,hosts,hostile,release}/**/*.test.{ts,tsx}"];

export default defineConfig({
  test: {
    testTimeout: 30_000,
    hookTimeout: 120_000,
    // Much of a run is waiting for a browser or another spreadsheet program: two cores carry two test files.
    maxWorkers: Math.max(2, availableParallelism() - 1),
    projects: [
      // What works on values alone shares its modules: loading them for every file takes longer than the tests.
      {
        extends: true,
        test: { name: "values", include: ["tests/**/*.test.{ts,tsx}"], exclude: APART, isolate: false },
      },
      { extends: true, test: { name: "apart", include: APART } },
    ],
  },
});
