import { resolve } from "node:path";
import webpack, { type Configuration } from "webpack";
import { RESOLVE_SOURCES, sourceRules } from "../bundle-sources.js";
import { ThirdPartyNotices } from "../third-party.js";

/**
 * Returns webpack's configuration of the command line: one file to start with, and one for each command's own needs.
 *
 * The roll-up's reader is a thread of its own. Nothing is left to be installed beside it.
 */
export function cliBundle(outputPath: string): Configuration {
  return {
    name: "cli",
    target: "node20.19",
    node: { __dirname: false, __filename: false },
    entry: { vanesheet: "./src/cli/start.ts" },
    experiments: { outputModule: true },
    output: {
      path: outputPath,
      filename: "[name].mjs",
      chunkFilename: "parts/[id].mjs",
      module: true,
      chunkFormat: "module",
      library: { type: "module" },
      clean: true,
    },
    devtool: false,
    performance: { hints: false },
    cache: { type: "filesystem", cacheDirectory: resolve(".cache/webpack") },
    optimization: { chunkIds: "deterministic", splitChunks: { chunks: "async", minSize: 20_000 } },
    resolve: { ...RESOLVE_SOURCES, mainFields: ["module", "main"], conditionNames: ["node", "import", "require"] },
    module: {
      parser: { javascript: { worker: ["Worker from node:worker_threads", "..."] } },
      rules: [...sourceRules()],
    },
    plugins: [
      new ThirdPartyNotices(),
      new webpack.BannerPlugin({ banner: "#!/usr/bin/env node", raw: true, test: /^vanesheet\.mjs$/ }),
    ],
  };
}
