import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";

const root = resolve(import.meta.dirname, "../..");

interface PackageFile {
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly devDependencies?: Readonly<Record<string, string>>;
  readonly license?: string;
}

function packageFile(folder: string): PackageFile {
  return JSON.parse(readFileSync(resolve(root, folder, "package.json"), "utf8"));
}

/** The packages of each table of the page, each as "name license". */
function documented(): string[][] {
  const text = readFileSync(resolve(root, "docs/dependencies.md"), "utf8");
  return text
    .split("\n## ")
    .slice(1)
    .map((section) =>
      [...section.matchAll(/^\| (\S+) \| ([^|]+?) \|/gm)]
        .filter(([, name]) => name !== "package")
        .map(([, name, license]) => `${name} ${license?.split(" (Microsoft")[0]}`),
    );
}

function installed(packages: Readonly<Record<string, string>> | undefined): string[] {
  return Object.keys(packages ?? {}).map((name) => `${name} ${packageFile(`node_modules/${name}`).license}`);
}

describe("docs/dependencies.md", () => {
  it("lists every package, in the table of its use and by its own license", () => {
    const own = packageFile(".");
    expect(documented()).toEqual([
      installed(own.dependencies),
      installed(own.devDependencies),
      installed(packageFile("tests").devDependencies),
    ]);
  });

  it("finds every version pinned", () => {
    const own = packageFile(".");
    const versions = { ...own.dependencies, ...own.devDependencies, ...packageFile("tests").devDependencies };
    const loose = Object.entries(versions).filter(([, version]) => !/^\d+\.\d+\.\d+(?:-[\w.]+)?$/.test(version));
    expect(loose).toEqual([]);
  });
});
