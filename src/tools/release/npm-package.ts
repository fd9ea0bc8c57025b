import { execFileSync } from "node:child_process";
import { cpSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { PACKAGES_FILE } from "../third-party.js";
import { filesBelow } from "./zip-folder.js";

interface OwnPackage {
  readonly name: string;
  readonly version: string;
  readonly description: string;
  readonly license: string;
  readonly engines: Readonly<Record<string, string>>;
}

/** What npm shows and reads of the package: everything is inside, nothing is installed beside it and nothing is run. */
function description(own: OwnPackage): string {
  const entry = { types: "./lib/src/core/index.d.ts", default: "./lib/src/core/index.js" };
  const listed = {
    name: own.name,
    version: own.version,
    description: own.description,
    keywords: ["airflow", "anemometer", "balancing", "hvac", "spreadsheet", "xlsx", "ventilation"],
    license: own.license,
    type: "module",
    engines: own.engines,
    bin: { vanesheet: "vanesheet.cjs" },
    exports: { ".": entry, "./package.json": "./package.json" },
    sideEffects: false,
  };
  return `${JSON.stringify(listed, null, 2)}\n`;
}

/** The calculation core as compiled, with its types and the tables it reads: the library that a program imports. */
function copyLibrary(build: string, to: string): void {
  for (const layer of ["src/core", "shared/tables"]) {
    for (const path of filesBelow(join(build, layer)).filter((name) => /\.(js|d\.ts)$/.test(name))) {
      const target = join(to, layer, path);
      mkdirSync(dirname(target), { recursive: true });
      const text = readFileSync(join(build, layer, path), "utf8");
      writeFileSync(target, text.replace(/\n?\/\/# sourceMappingURL=.*\n?$/, "\n"));
    }
  }
}

/** Copies one bundle's licenses beside those of another. */
function addLicenses(from: string, to: string): void {
  for (const path of filesBelow(join(from, "licenses")).filter((name) => !PACKAGES_FILE.endsWith(name))) {
    cpSync(join(from, "licenses", path), join(to, "licenses", path));
  }
}

/**
 * Lays out the npm package: the bundled command line with its templates, the page that it serves, and the calculation
 * core as a library.
 */
export function layOutPackage(root: string, folder: string, readme: string): void {
  const own = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as OwnPackage;
  const dist = (name: string) => join(root, "dist", name);
  cpSync(dist("cli"), folder, { recursive: true });
  cpSync(dist("page"), join(folder, "page"), { recursive: true });
  cpSync(join(root, "templates"), join(folder, "templates"), { recursive: true });
  copyLibrary(join(root, "build"), join(folder, "lib"));
  addLicenses(dist("page"), folder);
  cpSync(join(root, "LICENSE"), join(folder, "LICENSE"));
  writeFileSync(join(folder, "package.json"), description(own));
  writeFileSync(join(folder, "README.md"), readme);
}

/** Packs the folder as npm does and returns the name of the file. */
export function packPackage(folder: string, to: string): string {
  const npm = process.platform === "win32" ? "npm.cmd" : "npm";
  const args = ["pack", folder, "--pack-destination", to, "--silent", "--ignore-scripts"];
  return execFileSync(npm, args, { encoding: "utf8", shell: process.platform === "win32" }).trim();
}
