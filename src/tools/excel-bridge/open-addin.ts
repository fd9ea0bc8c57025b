import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { resolve as absolute, join } from "node:path";
import webpack from "webpack";
import { OFFICE_JS } from "../addin/addin-bundle.js";
import { RESOLVE_SOURCES, sourceRules } from "../bundle-sources.js";
import { type ExcelBridge, type ExcelBridgeOptions, openBridge } from "./open-bridge.js";

const BUILT = join("dist", "addin");

/** Copies the add-in as it was built, but with office.js from node_modules, and returns its folder. */
function copyAddin(): string {
  if (!existsSync(join(BUILT, "pane.html"))) throw new Error("The add-in is not built. Run npm run build first.");
  const folder = mkdtempSync(join(tmpdir(), "vanesheet-addin-"));
  cpSync(BUILT, folder, { recursive: true });
  const pane = readFileSync(join(folder, "pane.html"), "utf8");
  if (!pane.includes(OFFICE_JS)) throw new Error(`${BUILT}/pane.html does not load ${OFFICE_JS}.`);
  writeFileSync(join(folder, "pane.html"), pane.replaceAll(OFFICE_JS, "office-js/office.js"));
  return folder;
}

/** Builds further scripts into the folder, quickly and not small. */
async function addEntries(folder: string, entry: Readonly<Record<string, string>>): Promise<void> {
  await new Promise<void>((resolve, reject) => {
    webpack(
      {
        mode: "development",
        devtool: false,
        // Test files that run side by side do not write one cache.
        cache: {
          type: "filesystem",
          cacheDirectory: absolute(".cache/webpack"),
          name: `addin-entries-${process.env["VITEST_POOL_ID"] ?? ""}`,
        },
        target: ["web", "es2022"],
        entry: { ...entry },
        output: { path: folder, filename: "[name].js" },
        resolve: RESOLVE_SOURCES,
        module: { rules: [...sourceRules()] },
      },
      (error, stats) => {
        if (error) reject(error);
        else if (stats?.hasErrors()) reject(new Error(stats.toString("errors-only")));
        else resolve();
      },
    );
  });
}

export interface AddinOptions extends Omit<ExcelBridgeOptions, "folder"> {
  /** Further scripts to build beside the page, by name; the test loads them itself. */
  readonly furtherEntries?: Readonly<Record<string, string>>;
}

/** Opens the built add-in in the real browser over the simulated Excel; closing removes the copy that it opens. */
export async function openAddin({ furtherEntries = {}, ...options }: AddinOptions = {}): Promise<ExcelBridge> {
  const folder = copyAddin();
  const remove = () => rmSync(folder, { recursive: true, force: true });
  try {
    if (Object.keys(furtherEntries).length > 0) await addEntries(folder, furtherEntries);
    const bridge = await openBridge({ ...options, folder });
    return { ...bridge, close: () => bridge.close().finally(remove) };
  } catch (cause) {
    remove();
    throw cause;
  }
}
