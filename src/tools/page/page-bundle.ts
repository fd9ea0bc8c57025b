import { join, resolve } from "node:path";
import CopyPlugin from "copy-webpack-plugin";
import MiniCssExtractPlugin from "mini-css-extract-plugin";
import type { Configuration } from "webpack";
import { PAGE_POLICY } from "../../cli/page/page-policy.js";
import { RESOLVE_SOURCES, sourceRules } from "../bundle-sources.js";
import { FolderStamp } from "../folder-stamp.js";
import { ThirdPartyNotices } from "../third-party.js";

/**
 * Returns webpack's configuration of the local workbook page.
 *
 * The engine stays a readable file of its own, `engine.js`, so that whoever wants another build of it can put one in
 * its place, as its licence asks.
 */
export function pageBundle(outputPath: string): Configuration {
  const root = resolve(".");
  return {
    name: "page",
    target: ["web", "es2022"],
    entry: { page: "./src/pane/page.ts", "service-worker": "./src/hosts/page/offline/service-worker.ts" },
    output: { path: outputPath, filename: "[name].js", clean: true },
    devtool: false,
    performance: { hints: false },
    cache: { type: "filesystem", cacheDirectory: join(root, ".cache/webpack") },
    optimization: {
      minimize: false,
      splitChunks: {
        cacheGroups: {
          engine: { name: "engine", chunks: "all", enforce: true, test: /node_modules[\\/]@odoo[\\/].*\.(js|xml)$/ },
        },
      },
    },
    resolve: {
      ...RESOLVE_SOURCES,
      // The engine names a ready-made script for browsers first; its module is what can be bundled.
      mainFields: ["module", "main"],
    },
    module: {
      rules: [...sourceRules(), { test: /o_spreadsheet\.xml$/, type: "asset/source" }],
    },
    plugins: [
      new ThirdPartyNotices(),
      new MiniCssExtractPlugin({ filename: "[name].css" }),
      new CopyPlugin({
        patterns: [
          {
            from: "src/hosts/page/page.html",
            to: "index.html",
            transform: (content: Buffer) => content.toString("utf8").replaceAll("%POLICY%", PAGE_POLICY),
          },
          { from: "manifest/icons/icon.svg", to: "icon.svg" },
          { from: "manifest/icons/icon-80.png", to: "icon-80.png" },
          { from: "src/hosts/page/offline/page.webmanifest", to: "page.webmanifest", toType: "file" },
          { from: "templates/*.xlsx", to: "templates/[name][ext]", noErrorOnMissing: true },
          { from: "LICENSE", to: "LICENSE.txt", toType: "file" },
        ],
      }),
      // Older forms of the faces, and the texts of licences, are for nobody who works.
      new FolderStamp({
        isNeededOffline: (name) =>
          /\.(js|css|html|xlsx|woff2|svg|webmanifest)(\?|$)/.test(name) &&
          !/^service-worker\b|^[0-9a-f]{16,}\.svg$/.test(name),
        isMarked: () => false,
      }),
    ],
  };
}
