import { resolve } from "node:path";
import MiniCssExtractPlugin from "mini-css-extract-plugin";
import type { Configuration, RuleSetRule } from "webpack";
import { withoutSources } from "./without-sources.js";

/** How both bundles find our sources: an import names the compiled file. */
export const RESOLVE_SOURCES: NonNullable<Configuration["resolve"]> = {
  extensions: [".ts", ".tsx", ".js"],
  extensionAlias: { ".js": [".ts", ".tsx", ".js"] },
  // The reader of delimited text asks for Node's streams, which a browser lacks and we never use.
  fallback: { stream: false },
};

/** Published tables; the workings show the source of the assumed factor. */
const TABLES = /[\\/]shared[\\/]tables[\\/](?!assumed-free-area)[^\\/]+\.ts$/;

/** How both bundles read our sources: types are checked elsewhere, styles go into a file of their own. */
export function sourceRules(): RuleSetRule[] {
  const options = { transpileOnly: true, configFile: resolve("src/pane/tsconfig.json") };
  return [
    { test: /\.tsx?$/, exclude: TABLES, loader: "ts-loader", options },
    {
      test: TABLES,
      loader: "ts-loader",
      options: { ...options, instance: "tables", getCustomTransformers: () => ({ before: [withoutSources] }) },
    },
    { test: /\.css$/, use: [MiniCssExtractPlugin.loader, "css-loader"] },
  ];
}
