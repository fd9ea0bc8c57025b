import { availableParallelism } from "node:os";
import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.{ts,tsx}"],
    testTimeout: 30_000,
    hookTimeout: 120_000,
    // Much of a run is waiting for a browser or another spreadsheet program: two cores carry two test files.
    maxWorkers: Math.max(2, availableParallelism() - 1),
  },
});
