import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { resolve as absolute, join } from "node:path";
import webpack from "webpack";
import { DEVELOPMENT_ADDRESS } from "../addin/addin-address.js";
import { addinBundle } from "../addin/addin-bundle.js";
import { type ExcelBridge, type ExcelBridgeOptions, openBridge } from "./open-bridge.js";

/** Builds the add-in as it ships, but with office.js from node_modules, and returns its folder. */
async function buildAddin(furtherEntries: Readonly<Record<string, string>>): Promise<string> {
  const outputPath = mkdtempSync(join(tmpdir(), "vanesheet-addin-"));
  const configuration = addinBundle({
    address: DEVELOPMENT_ADDRESS,
    officeJs: "office-js/office.js",
    outputPath,
    furtherEntries,
  });
  await new Promise<void>((resolve, reject) => {
    const cache = { type: "filesystem" as const, cacheDirectory: absolute(".cache/webpack"), name: "addin-tests" };
    webpack({ ...configuration, mode: "production", devtool: false, cache }, (error, stats) => {
      if (error) reject(error);
      else if (stats?.hasErrors()) reject(new Error(stats.toString("errors-only")));
      else resolve();
    });
  });
  return outputPath;
}

export interface AddinOptions extends Omit<ExcelBridgeOptions, "folder"> {
  /** Further scripts to build beside the page, by name; the test loads them itself. */
  readonly furtherEntries?: Readonly<Record<string, string>>;
}

/** Builds the add-in and opens it in the real browser over the simulated Excel; closing removes what was built. */
export async function openAddin({ furtherEntries = {}, ...options }: AddinOptions = {}): Promise<ExcelBridge> {
  const folder = await buildAddin(furtherEntries);
  const remove = () => rmSync(folder, { recursive: true, force: true });
  try {
    const bridge = await openBridge({ ...options, folder });
    return { ...bridge, close: () => bridge.close().finally(remove) };
  } catch (cause) {
    remove();
    throw cause;
  }
}
