import { readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import CopyPlugin from "copy-webpack-plugin";
import MiniCssExtractPlugin from "mini-css-extract-plugin";
import type { Configuration } from "webpack";
import { licenceFiles, PANE_LICENCES, RESOLVE_SOURCES, sourceRules } from "../bundle-sources.js";
import { DEVELOPMENT_ADDRESS } from "./addin-address.js";

/** Microsoft asks add-ins to load office.js from here; a copy of one's own is not supported in production. */
export const OFFICE_JS = "https://appsforoffice.microsoft.com/lib/1/hosted/office.js";

export interface AddinBundle {
  /** Where the add-in will be served, without a slash at its end. */
  readonly address: string;
  /** Where the page loads office.js from: `OFFICE_JS`, or a path beside the page in tests. */
  readonly officeJs: string;
  readonly outputPath: string;
  /** Further scripts by name, for tests that need more of the sources in the page. */
  readonly furtherEntries: Readonly<Record<string, string>>;
}

/**
 * What the pane may load and talk to: its own files and office.js. Styles in the markup are office.js's own; nothing
 * evaluates text as code, and no request leaves for anywhere else.
 */
function contentSecurityPolicy(officeJs: string): string {
  const scripts = URL.canParse(officeJs) ? `'self' ${new URL(officeJs).origin}` : "'self'";
  return [
    "default-src 'none'",
    `script-src ${scripts}`,
    "style-src 'self' 'unsafe-inline'",
    "img-src 'self' data:",
    "font-src 'self'",
    "connect-src 'self'",
    "base-uri 'none'",
    "form-action 'none'",
  ].join("; ");
}

function filled(page: string, { officeJs }: AddinBundle, version: string): string {
  return page
    .replaceAll("%POLICY%", contentSecurityPolicy(officeJs))
    .replaceAll("%OFFICE_JS%", officeJs)
    .replaceAll("%VERSION%", version);
}

/** Returns webpack's configuration of the add-in: the functions, the pane, and the files that Excel asks for. */
export function addinBundle(bundle: AddinBundle): Configuration {
  const root = resolve(".");
  const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as { version: string };
  const page = (content: Buffer) => filled(content.toString("utf8"), bundle, version);
  const manifest = (content: Buffer) => content.toString("utf8").replaceAll(DEVELOPMENT_ADDRESS, bundle.address);
  return {
    name: "addin",
    target: ["web", "es2022"],
    entry: { functions: "./src/hosts/excel/functions.ts", pane: "./src/pane/excel.ts", ...bundle.furtherEntries },
    output: { path: bundle.outputPath, filename: "[name].js", chunkFilename: "[name].[contenthash:8].js", clean: true },
    devtool: "source-map",
    performance: { hints: false },
    cache: { type: "filesystem", cacheDirectory: join(root, ".cache/webpack") },
    resolve: RESOLVE_SOURCES,
    module: {
      rules: [...sourceRules()],
    },
    plugins: [
      new MiniCssExtractPlugin({ filename: "[name].css" }),
      new CopyPlugin({
        patterns: [
          { from: "src/pane/pane.html", transform: page },
          { from: "src/pane/help.html", transform: page },
          { from: "src/cells/functions.json" },
          { from: "manifest/manifest.xml", transform: manifest },
          { from: "manifest/icons/*.png", to: "icons/[name][ext]" },
          { from: "templates/*.xlsx", to: "templates/[name][ext]", noErrorOnMissing: true },
          { from: "LICENSE", to: "LICENSE.txt", toType: "file" },
          ...licenceFiles(PANE_LICENCES),
        ],
      }),
    ],
  };
}
