import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, relative, resolve } from "node:path";
import { cruise, type ICruiseResult } from "dependency-cruiser";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { layerRules } from "./layer-rules.js";

const root = resolve(import.meta.dirname, "../..");

async function violations(baseDir: string, folders: readonly string[]): Promise<readonly string[]> {
  const result = await cruise(
    [...folders],
    {
      baseDir,
      validate: true,
      ruleSet: { forbidden: layerRules.map(({ rule }) => rule) },
      doNotFollow: { path: "node_modules" },
      tsPreCompilationDeps: true,
    },
    { extensions: [".ts", ".tsx", ".mjs", ".js", ".json"], extensionAlias: { ".js": [".ts", ".tsx", ".js"] } },
  );
  const { summary } = result.output as ICruiseResult;
  return summary.violations.map(({ rule, from, to }) => `${rule.name}: ${from} -> ${to}`);
}

describe("the layers", () => {
  it("lean on each other in one direction only", async () => {
    expect(await violations(root, ["src", "shared"])).toEqual([]);
  }, 120_000);
});

describe("each rule of direction", () => {
  let planted = "";

  beforeAll(() => {
    planted = mkdtempSync(join(tmpdir(), "vanesheet-layers-"));
    symlinkSync(join(root, "node_modules"), join(planted, "node_modules"));
    writeFileSync(
      join(planted, "package.json"),
      JSON.stringify({ type: "module", devDependencies: { mathjs: "*", "@odoo/o-spreadsheet": "*" } }),
    );
  });

  afterAll(() => rmSync(planted, { recursive: true }));

  function write(path: string, text: string) {
    mkdirSync(dirname(join(planted, path)), { recursive: true });
    writeFileSync(join(planted, path), text);
  }

  it.each(layerRules.map(({ rule, planted: violation }) => [rule.name as string, violation] as const))(
    "%s bites on a planted violation",
    async (name, { file, imports }) => {
      for (const folder of ["src", "shared"]) rmSync(join(planted, folder), { recursive: true, force: true });
      const isFile = imports.endsWith(".ts");
      const specifier = isFile ? `./${relative(dirname(file), imports).replace(/\.ts$/, ".js")}` : imports;
      const back =
        name === "no-circle" ? `import "./${relative(dirname(imports), file).replace(/\.ts$/, ".js")}";\n` : "";
      if (isFile) write(imports, `${back}export const there = 1;\n`);
      write(file, `import "${specifier}";\nexport const here = 1;\n`);
      mkdirSync(join(planted, "src"), { recursive: true });
      mkdirSync(join(planted, "shared"), { recursive: true });
      const found = await violations(planted, ["src", "shared"]);
      expect(
        found.some((violation) => violation.startsWith(name === "no-circle" ? `${name}: ` : `${name}: ${file} -> `)),
      ).toBe(true);
    },
  );
});
