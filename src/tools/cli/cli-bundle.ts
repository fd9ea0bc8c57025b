import { resolve } from "node:path";
import CopyPlugin from "copy-webpack-plugin";
import webpack, { type Configuration } from "webpack";
import { RESOLVE_SOURCES, sourceRules } from "../bundle-sources.js";
import { ThirdPartyNotices } from "../third-party.js";

/** The engine's two files, unmodified, and what loads them; its licence asks that people can replace it. */
const ENGINE_FILES: Readonly<Record<string, string>> = {
  "o_spreadsheet.min.iife.js": "node_modules/@odoo/o-spreadsheet/dist/o_spreadsheet.min.iife.js",
  "owl.cjs": "node_modules/@odoo/owl/dist/owl.cjs.js",
  "load-engine.cjs": "src/tools/cli/load-engine.cjs",
};

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
    externals: { "@odoo/o-spreadsheet": "node-commonjs ./engine/load-engine.cjs" },
    resolve: { ...RESOLVE_SOURCES, mainFields: ["module", "main"], conditionNames: ["node", "import", "require"] },
    module: {
      parser: { javascript: { worker: ["Worker from node:worker_threads", "..."] } },
      rules: [...sourceRules()],
    },
    plugins: [
      new ThirdPartyNotices(),
      new webpack.BannerPlugin({ banner: "#!/usr/bin/env node", raw: true, test: /^vanesheet\.mjs$/ }),
      new CopyPlugin({
        patterns: Object.entries(ENGINE_FILES).map(([name, from]) => ({
          from,
          to: `engine/${name}`,
          toType: "file" as const,
          // Otherwise webpack would write them anew in fewer characters.
          info: { minimized: true },
        })),
      }),
    ],
  };
}
