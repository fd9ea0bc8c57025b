import { readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import CopyPlugin from "copy-webpack-plugin";
import MiniCssExtractPlugin from "mini-css-extract-plugin";
import type { Configuration } from "webpack";
import { RESOLVE_SOURCES, sourceRules } from "../bundle-sources.js";
import { FolderStamp } from "../folder-stamp.js";
import { ThirdPartyNotices } from "../third-party.js";
import { DEVELOPMENT_ADDRESS } from "./addin-address.js";
import { type AddinDeployment, asDeployed } from "./deployed-template.js";
import { functionsHelp } from "./functions-help.js";
import { withHelpAddresses } from "./functions-metadata.js";
import { HostingFiles } from "./hosting-files.js";

/** Microsoft asks add-ins to load office.js from here; a copy of one's own is not supported in production. */
export const OFFICE_JS = "https://appsforoffice.microsoft.com/lib/1/hosted/office.js";

export interface AddinBundle {
  /** Where the folder will be served, without a slash at its end; null for a folder that holds no address. */
  readonly address: string | null;
  /** Where the page loads office.js from: `OFFICE_JS`, or a path beside the page in tests. */
  readonly officeJs: string;
  readonly outputPath: string;
  /** How the templates name the add-in. */
  readonly deployment: AddinDeployment;
  /** Source maps weigh more than all the rest, and nobody who uses the add-in reads them. */
  readonly hasSourceMaps: boolean;
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
    "worker-src 'self'",
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

/** Writes every address of the add-in as a mark that the install page fills in. */
function manifestTemplate(content: Buffer): string {
  return content.toString("utf8").replaceAll(DEVELOPMENT_ADDRESS, "%ADDRESS%");
}

/** Returns webpack's configuration of the add-in: the functions, the pane, and the files that Excel asks for. */
export function addinBundle(bundle: AddinBundle): Configuration {
  const root = resolve(".");
  const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as { version: string };
  const { address } = bundle;
  const page = (content: Buffer) =>
    filled(content.toString("utf8"), bundle, version).replaceAll("%FUNCTIONS%", () =>
      functionsHelp(join(root, "shared", "cases")),
    );
  const registration = (content: Buffer) => {
    const text = content.toString("utf8");
    return JSON.stringify(JSON.parse(address === null ? text : withHelpAddresses(text, address)));
  };
  const template = (content: Buffer) => Buffer.from(asDeployed(content, bundle.deployment, version));
  const manifest = (content: Buffer) => content.toString("utf8").replaceAll(DEVELOPMENT_ADDRESS, address ?? "");
  return {
    name: "addin",
    target: ["web", "es2022"],
    entry: {
      functions: "./src/hosts/excel/functions.ts",
      pane: "./src/pane/excel.ts",
      loading: "./src/pane/loading.ts",
      install: "./src/pane/install/install.ts",
      "service-worker": "./src/pane/offline/service-worker.ts",
    },
    output: { path: bundle.outputPath, filename: "[name].js", chunkFilename: "[name].[contenthash:8].js", clean: true },
    devtool: bundle.hasSourceMaps ? "source-map" : false,
    performance: { hints: false },
    cache: { type: "filesystem", cacheDirectory: join(root, ".cache/webpack") },
    resolve: RESOLVE_SOURCES,
    module: {
      rules: [...sourceRules()],
    },
    plugins: [
      new ThirdPartyNotices(),
      new MiniCssExtractPlugin({ filename: "[name].css" }),
      new CopyPlugin({
        patterns: [
          ...["pane.html", "help.html", "functions.html", "install/install.html"].map((name) => ({
            from: `src/pane/${name}`,
            to: "[name][ext]",
            transform: page,
          })),
          { from: "src/cells/functions.json", transform: registration },
          { from: "manifest/manifest.xml", to: "manifest-template.xml", toType: "file", transform: manifestTemplate },
          ...(address === null ? [] : [{ from: "manifest/manifest.xml", transform: manifest }]),
          { from: "manifest/shortcuts.json" },
          { from: "manifest/icons/*.png", to: "icons/[name][ext]" },
          {
            from: "templates/*.xlsx",
            to: "templates/[name][ext]",
            noErrorOnMissing: true,
            // The page alone opens it.
            globOptions: { ignore: ["**/demonstration.xlsx"] },
            transform: template,
          },
          { from: "LICENSE", to: "LICENSE.txt", toType: "file" },
        ],
      }),
      new HostingFiles(),
      // Help, icons and what serves the installing is fetched when it is asked for.
      new FolderStamp({
        isNeededOffline: (name) => /\.(js|css|html|xlsx)$/.test(name) && !/^(install|service-worker)\b/.test(name),
        isMarked: (name) => /^(pane|functions|loading)\.(js|css)$/.test(name),
      }),
    ],
  };
}
