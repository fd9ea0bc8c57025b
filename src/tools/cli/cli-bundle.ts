import { resolve } from "node:path";
import webpack, { type Configuration } from "webpack";
import { COMMAND_NAMES } from "../../cli/main.js";
import { RESOLVE_SOURCES, sourceRules } from "../bundle-sources.js";
import { ThirdPartyNotices } from "../third-party.js";

const MAIN = resolve("src/cli/main.ts");

/** Leaves each command's file out of the file that a person starts, which loads it by its name when it is called. */
function commandApart(
  { request = "", contextInfo }: webpack.ExternalItemFunctionData,
  found: (error?: null, external?: string) => void,
): void {
  const [, name = ""] = /^\.\/([a-z]+)\.js$/.exec(request) ?? [];
  if (contextInfo?.issuer !== MAIN || !COMMAND_NAMES.includes(name)) found();
  else found(null, `commonjs ./commands/${name}.cjs`);
}

/**
 * Returns webpack's configuration of the command line: one small file to start with, and one for each command with all
 * that the command needs at once. Node starts files of CommonJS sooner than modules.
 *
 * The roll-up's reader is a thread of its own. Nothing is left to be installed beside it.
 */
export function cliBundle(outputPath: string): Configuration {
  const commands = COMMAND_NAMES.map((name) => [
    `commands/${name}`,
    { import: `./src/cli/${name}.ts`, library: { type: "commonjs2" } },
  ]);
  return {
    name: "cli",
    target: "node20.19",
    node: { __dirname: "eval-only", __filename: "eval-only" },
    entry: { vanesheet: "./src/cli/start.ts", ...Object.fromEntries(commands) },
    externals: [commandApart],
    // What a file marks so is run when it is first used, not when the command starts.
    experiments: { deferImport: true },
    output: {
      path: outputPath,
      filename: "[name].cjs",
      chunkFilename: "parts/[id].cjs",
      module: false,
      chunkFormat: "commonjs",
      clean: true,
    },
    devtool: false,
    performance: { hints: false },
    cache: { type: "filesystem", name: "command-line", cacheDirectory: resolve(".cache/webpack") },
    optimization: { chunkIds: "deterministic", splitChunks: { chunks: "async", minSize: 20_000 } },
    resolve: { ...RESOLVE_SOURCES, mainFields: ["module", "main"], conditionNames: ["node", "import", "require"] },
    module: {
      parser: { javascript: { worker: ["Worker from node:worker_threads", "..."] } },
      rules: [
        ...sourceRules(),
        // No file of ours does anything by being imported, but for those that are started.
        { test: /\.ts$/, include: resolve("src"), exclude: resolve("src/cli/start.ts"), sideEffects: false },
        { include: MAIN, parser: { dynamicImportMode: "eager" } },
      ],
    },
    plugins: [
      new ThirdPartyNotices(),
      new webpack.BannerPlugin({ banner: "#!/usr/bin/env node", raw: true, test: /^vanesheet\.cjs$/ }),
    ],
  };
}
