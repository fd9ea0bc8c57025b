import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join, sep } from "node:path";
import standardLicenses from "spdx-license-list/full.js";
import type { Compilation, Compiler, Module } from "webpack";

/** A package of which something is in a bundle. */
export interface BundledPackage {
  readonly name: string;
  readonly version: string;
  /** As the package states it, an SPDX expression. */
  readonly license: string;
  /** The file beside the bundle that holds its license. */
  readonly file: string;
}

/** Where the list of packages lies beside a bundle, for whoever lists what is inside. */
export const PACKAGES_FILE = "licenses/packages.json";

const LICENSE_FILE = /^(licen[cs]e|copying|notice)([.-].*)?$/i;
const READABLE = /\.(md|txt|rst)$|^[^.]+$/i;

/** Finds the folder of the package to which a file belongs, undefined for our own files. */
function packageFolder(path: string): string | undefined {
  const mark = `${sep}node_modules${sep}`;
  const at = path.lastIndexOf(mark);
  if (at < 0) return undefined;
  const [first = "", second = ""] = path.slice(at + mark.length).split(sep);
  return join(path.slice(0, at + mark.length), first, first.startsWith("@") ? second : "");
}

/** The files that a module was made of: one, or many where the bundler joined them. */
function filesOf(module: Module): readonly string[] {
  const { modules, resource } = module as { modules?: readonly Module[]; resource?: string };
  const joined = (modules ?? []).flatMap(filesOf);
  const own = resource ?? module.nameForCondition();
  return own === null ? joined : [...joined, own.split("?")[0] ?? own];
}

/** The files of packages that are copied as they are. */
function copiedFiles({ assets, compiler }: Compilation, infoOf: Compilation["assetsInfo"]): readonly string[] {
  return Object.keys(assets).flatMap((name) => {
    const source = infoOf.get(name)?.sourceFilename;
    return source === undefined ? [] : [join(compiler.context, source)];
  });
}

/** The text of each license that an SPDX expression names, for a package that brings none. */
function standardText(folder: string, expression: string): string {
  const ids = expression.split(/[()\s]+|\bAND\b|\bOR\b/).filter((id) => id !== "");
  return ids
    .map((id) => {
      const standard = standardLicenses[id as keyof typeof standardLicenses];
      if (standard === undefined) throw new Error(`${folder}: no text is known of the license “${id}”`);
      return `${standard.name}\n\n${standard.licenseText.trim()}`;
    })
    .join("\n\n");
}

function licenseText(folder: string, expression: string): string {
  const names = readdirSync(folder).filter((name) => LICENSE_FILE.test(name) && READABLE.test(name));
  const texts = names.sort().map((name) => readFileSync(join(folder, name), "utf8").replaceAll("\r\n", "\n").trim());
  return texts.length > 0 ? texts.join("\n\n") : standardText(folder, expression);
}

function bundledPackage(folder: string): BundledPackage & { readonly text: string } {
  const { name, version, license } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
  if (typeof license !== "string") throw new Error(`${folder} states no license`);
  const file = `licenses/${String(name).replace("@", "").replace("/", "-")}.txt`;
  return { name, version, license, file, text: licenseText(folder, license) };
}

function notices(packages: readonly BundledPackage[]): string {
  return [
    "Third-party notices",
    "",
    "Vanesheet is published under the MIT license (LICENSE.txt). It contains, whole or in part:",
    "",
    ...packages.map(({ name, version, license, file }) => `${name} ${version}: ${license}, ${file}`),
    "",
  ].join("\n");
}

/**
 * Puts the license of every package that is in a bundle beside it, in a file each, and a list of them. The list is made
 * of what the bundle really contains, modules and copied files alike.
 */
export class ThirdPartyNotices {
  apply(compiler: Compiler): void {
    const { Compilation: stages, sources } = compiler.webpack;
    compiler.hooks.thisCompilation.tap("ThirdPartyNotices", (compilation) => {
      compilation.hooks.processAssets.tap(
        { name: "ThirdPartyNotices", stage: stages.PROCESS_ASSETS_STAGE_REPORT },
        () => {
          const files = [
            ...[...compilation.modules].flatMap(filesOf),
            ...copiedFiles(compilation, compilation.assetsInfo),
          ];
          const folders = new Set(files.map(packageFolder).filter((folder) => folder !== undefined));
          const packages = [...folders]
            .filter((folder) => existsSync(join(folder, "package.json")))
            .map(bundledPackage)
            .sort((one, other) => (one.name < other.name ? -1 : 1));
          const emit = (name: string, text: string) => compilation.emitAsset(name, new sources.RawSource(text));
          const listed = packages.map(({ text, ...rest }) => {
            emit(rest.file, `${rest.name} ${rest.version}: ${rest.license}\n\n${text}\n`);
            return rest;
          });
          emit(PACKAGES_FILE, `${JSON.stringify(listed, null, 2)}\n`);
          emit("THIRD-PARTY-NOTICES.txt", notices(listed));
        },
      );
    });
  }
}
