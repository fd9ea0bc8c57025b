import { resolve } from "node:path";
import MiniCssExtractPlugin from "mini-css-extract-plugin";
import type { Configuration, RuleSetRule } from "webpack";

/** How both bundles find our sources: an import names the compiled file. */
export const RESOLVE_SOURCES: NonNullable<Configuration["resolve"]> = {
  extensions: [".ts", ".tsx", ".js"],
  extensionAlias: { ".js": [".ts", ".tsx", ".js"] },
  // The reader of delimited text asks for Node's streams, which a browser lacks and we never use.
  fallback: { stream: false },
};

/** How both bundles read our sources: types are checked elsewhere, styles go into a file of their own. */
export function sourceRules(): RuleSetRule[] {
  return [
    {
      test: /\.tsx?$/,
      loader: "ts-loader",
      options: { transpileOnly: true, configFile: resolve("src/pane/tsconfig.json") },
    },
    { test: /\.css$/, use: [MiniCssExtractPlugin.loader, "css-loader"] },
  ];
}
