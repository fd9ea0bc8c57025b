/*
 * Writes dist/release from what was built: the npm package, the page, the add-in's folder and the workbooks, each with its
 * list of contents, and the checksums of all. The same sources give the same bytes.
 */
import { createHash } from "node:crypto";
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { type BundledPackage, PACKAGES_FILE } from "../third-party.js";
import { layOutTemplates } from "./lay-out-workbooks.js";
import { layOutPackage, packPackage } from "./npm-package.js";
import { ADDIN_README, PACKAGE_README, PAGE_README, WORKBOOKS_README } from "./readmes.js";
import { billOfMaterials } from "./sbom.js";
import { filesBelow, zipFolder } from "./zip-folder.js";

const root = resolve(".");
const dist = (...names: readonly string[]) => join(root, "dist", ...names);
const release = dist("release");
const work = dist(".release");
const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as { version: string };

function packagesIn(...bundles: readonly string[]): readonly BundledPackage[] {
  const listed = bundles.flatMap(
    (bundle) => JSON.parse(readFileSync(dist(bundle, PACKAGES_FILE), "utf8")) as readonly BundledPackage[],
  );
  const byName = new Map(listed.map((one) => [`${one.name}@${one.version}`, one]));
  return [...byName.values()].sort((one, other) => (one.name < other.name ? -1 : 1));
}

function writeContents(name: string, description: string, packages: readonly BundledPackage[]): void {
  const text = billOfMaterials({ name, version, description }, packages);
  writeFileSync(join(release, `${name}-${version}.cdx.json`), text);
}

/** A built folder as a zip of its own, with a README. */
function zipBuilt(bundle: string, name: string, readme: string): void {
  const folder = join(work, name);
  cpSync(dist(bundle), folder, { recursive: true, filter: (path) => !path.endsWith(".map") });
  writeFileSync(join(folder, "README.txt"), readme);
  writeFileSync(join(release, `${name}-${version}.zip`), zipFolder(folder, `${name}-${version}`));
}

async function zipWorkbooks(name: string): Promise<void> {
  const folder = join(work, name);
  await layOutTemplates(folder);
  writeFileSync(join(folder, "README.txt"), WORKBOOKS_README);
  cpSync(join(root, "LICENSE"), join(folder, "LICENSE.txt"));
  writeFileSync(join(release, `${name}-${version}.zip`), zipFolder(folder, `${name}-${version}`));
}

function writeChecksums(): void {
  const lines = filesBelow(release).map((name) => {
    const sum = createHash("sha256")
      .update(readFileSync(join(release, name)))
      .digest("hex");
    return `${sum}  ${name}\n`;
  });
  writeFileSync(join(release, "SHA256SUMS"), lines.join(""));
}

for (const folder of [release, work]) {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
}

const packageFolder = join(work, "vanesheet");
layOutPackage(root, packageFolder, PACKAGE_README.replaceAll("VERSION", version));
packPackage(packageFolder, release);
writeContents("vanesheet", "The command line, its page and the calculation core", packagesIn("cli", "page"));
zipBuilt("page", "vanesheet-page", PAGE_README);
writeContents("vanesheet-page", "The workbook page", packagesIn("page"));
zipBuilt("addin", "vanesheet-addin", ADDIN_README);
writeContents("vanesheet-addin", "The add-in for Excel", packagesIn("addin"));
await zipWorkbooks("vanesheet-workbooks");
writeContents("vanesheet-workbooks", "The templates as workbooks", []);
writeChecksums();
rmSync(work, { recursive: true, force: true });
for (const name of filesBelow(release)) console.log(`dist/release/${name}`);
