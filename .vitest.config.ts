import { availableParallelism } from "node:os";
import { dirname, join, relative, resolve, sep } from "node:path";
import { defineConfig } from "vitest/config";

const ROOT = import.meta.dirname;

/** Tests that put something else in the place of a module of Node, which only the test runner can do. */
const ON_SOURCES = ["tests/hosts/file/rollup/read-in-workers.test.ts"];

/**
 * Hands tests the compiled sources, which Node loads as they are: made ready by the test runner for each file of tests,
 * they took longer than most tests. `tests/support/compile-sources.ts` brings them up to date first.
 */
const compiledSources = {
  name: "compiled-sources",
  enforce: "pre" as const,
  resolveId(source: string, importer: string | undefined) {
    if (importer === undefined || !source.startsWith(".")) return undefined;
    const asker = relative(ROOT, importer).replaceAll(sep, "/");
    if (!asker.startsWith("tests/") || ON_SOURCES.includes(asker)) return undefined;
    const asked = relative(ROOT, resolve(dirname(importer), source));
    return /^(?:src|shared)[/\\].*\.js$/.test(asked) ? join(ROOT, "build", asked) : undefined;
  },
};

/** Files that drive a browser, a built artifact or a whole command: each has a process of its own. */
const APART = ["tests/**/browser/**/*.test.{ts,tsx}", "tests/{cli,hosts,hostile,release}/**/*.test.{ts,tsx}"];

export default defineConfig({
  plugins: [compiledSources],
  test: {
    server: { deps: { external: [/\/build\/(?:src|shared)\//] } },
    globalSetup: "tests/support/compile-sources.ts",
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
