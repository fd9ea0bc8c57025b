import { defineConfig } from "vitest/config";
import tests from "./.vitest.config.ts";

const { server: _, globalSetup: __, ...test } = tests.test ?? {};

/** Mutants are in the sources, not in what was compiled. */
export default defineConfig({ ...tests, plugins: [], test });
