import { join, resolve } from "node:path";
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

/** Packages that the pane brings into both bundles, and the file that holds the licence of each. */
export const PANE_LICENCES: Readonly<Record<string, string>> = {
  preact: "preact/LICENSE",
  mathjs: "mathjs/LICENSE",
  "mathjs-notice": "mathjs/NOTICE",
  "typed-function": "typed-function/LICENSE",
  "decimal.js": "decimal.js/LICENCE.md",
  "complex.js": "complex.js/LICENSE",
  "fraction.js": "fraction.js/LICENSE",
  fflate: "fflate/LICENSE",
  hucre: "hucre/LICENSE",
  papaparse: "papaparse/LICENSE",
};

/** Copies licences, by the name under which each is shipped, into a folder beside the bundle. */
export function licenceFiles(licences: Readonly<Record<string, string>>) {
  return Object.entries(licences).map(([name, file]) => ({
    from: join("node_modules", file),
    to: `licences/${name}.txt`,
    toType: "file" as const,
  }));
}
