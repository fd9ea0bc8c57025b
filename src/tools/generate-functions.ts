/*
 * Writes what follows from the JSDoc in src/cells, the only list of functions:
 * src/cells/functions.json (Excel's registration), src/cells/functions.generated.ts (the registry of every other
 * host) and docs/functions.md; and docs/sources.md, which follows from the sources beside every formula. With --check it writes nothing and fails when one of them is stale.
 */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import type { IFunction, IGenerateResult } from "custom-functions-metadata";
import metadata from "custom-functions-metadata";
import { type FunctionRoles, rolesIn } from "./function-roles.js";
import { functionsPage } from "./functions-page.js";
import { citationsIn } from "./sources/cited.js";
import { sourcesPage } from "./sources/sources-page.js";

const CELLS = "src/cells";

interface Registered {
  readonly declaration: IFunction;
  readonly functionName: string;
  readonly file: string;
}

async function readDeclarations(): Promise<readonly Registered[]> {
  const files = readdirSync(CELLS)
    .filter((file) => file.endsWith(".ts") && !file.endsWith(".generated.ts"))
    .filter((file) => readFileSync(join(CELLS, file), "utf8").includes("@customfunction"))
    .sort();
  const registered: Registered[] = [];
  for (const file of files) {
    const result: IGenerateResult = await metadata.generateCustomFunctionsMetadata(join(CELLS, file));
    if (result.errors.length > 0) throw new Error(`${file}: ${result.errors.join("; ")}`);
    const { functions } = JSON.parse(result.metadataJson) as { functions: IFunction[] };
    for (const declaration of functions) {
      const associate = result.associate.find((candidate) => candidate.id === declaration.id);
      if (associate === undefined) throw new Error(`${file}: ${declaration.id} has no function`);
      registered.push({
        declaration: onOneLine(declaration),
        functionName: associate.functionName,
        file: basename(file, ".ts"),
      });
    }
  }
  return registered.sort((a, b) => a.declaration.id.localeCompare(b.declaration.id, "en"));
}

/** Excel shows a description on one line, and cuts a longer one. */
const LONGEST_DESCRIPTION = 255;

/** Returns a declaration whose descriptions stand on one line each, as Excel shows them. */
function onOneLine(declaration: IFunction): IFunction {
  const plain = (text: string | undefined, of: string): string => {
    const line = (text ?? "").replace(/\s+/g, " ").trim();
    if (line.length > LONGEST_DESCRIPTION)
      throw new Error(`${of}: its description has ${line.length} characters; at most ${LONGEST_DESCRIPTION}.`);
    return line;
  };
  const { id } = declaration;
  return {
    ...declaration,
    description: plain(declaration.description, id),
    parameters: declaration.parameters.map((parameter) => ({
      ...parameter,
      description: plain(parameter.description, `${id}, ${parameter.name}`),
    })),
  };
}

function requireDistinct(registered: readonly Registered[]): void {
  const seen = new Map<string, string>();
  for (const { declaration, file } of registered) {
    const stored = declaration.id.replaceAll(".", "_");
    const other = seen.get(stored);
    if (other !== undefined)
      throw new Error(`${declaration.id} stands in ${other} and ${file}, or differs only by dots`);
    seen.set(stored, file);
  }
}

function functionsJson(registered: readonly Registered[]): string {
  const functions = registered.map(({ declaration }) => declaration);
  return `${JSON.stringify({ allowCustomDataForDataTypeAny: true, allowErrorForDataTypeAny: true, functions }, null, 2)}\n`;
}

function registryModule(registered: readonly Registered[], roles: FunctionRoles): string {
  const byFile = new Map<string, string[]>();
  for (const { file, functionName } of registered) byFile.set(file, [...(byFile.get(file) ?? []), functionName]);
  const imports = [...byFile].sort(([a], [b]) => a.localeCompare(b, "en"));
  const lines = [
    "// Written by `npm run generate` from the JSDoc in this folder. Change that, not this.",
    ...imports.map(([file, names]) => `import { ${names.sort().join(", ")} } from "./${file}.js";`),
    'import type { CellFunctionDeclaration } from "./declaration.js";',
    "",
    "export const declarations: readonly CellFunctionDeclaration[] = [",
  ];
  for (const { declaration, functionName } of registered) {
    const { id, description = "" } = declaration;
    const parameters = declaration.parameters.map((parameter) => ({
      name: parameter.name,
      description: parameter.description ?? "",
      optional: parameter.optional === true,
      isBlock: parameter.dimensionality === "matrix",
      role: roles.get(id)?.get(parameter.name) ?? null,
    }));
    const returnsBlock = declaration.result?.dimensionality === "matrix";
    lines.push(
      `  ${JSON.stringify({ id, description, parameters, returnsBlock }).slice(0, -1)},"call":${functionName}},`,
    );
  }
  lines.push("];", "");
  return lines.join("\n");
}

/** The calls alone: what Excel's script needs, since Excel reads the words in functions.json. */
function callsModule(registered: readonly Registered[]): string {
  const byFile = new Map<string, string[]>();
  for (const { file, functionName } of registered) byFile.set(file, [...(byFile.get(file) ?? []), functionName]);
  const imports = [...byFile].sort(([a], [b]) => a.localeCompare(b, "en"));
  const lines = registered.map(({ declaration: { id, parameters, result }, functionName }) => {
    const returnsBlock = result?.dimensionality === "matrix";
    return `  ["${id}", ${parameters.length}, ${returnsBlock}, ${functionName}],`;
  });
  return [
    "// Written by `npm run generate` from the JSDoc in this folder. Change that, not this.",
    ...imports.map(([file, names]) => `import { ${names.sort().join(", ")} } from "./${file}.js";`),
    'import type { CellFunctionCall } from "./declaration.js";',
    "",
    "export const cellCalls: readonly CellFunctionCall[] = [",
    ...lines,
    "];",
    "",
  ].join("\n");
}

export async function generatedFiles(): Promise<ReadonlyMap<string, string>> {
  const registered = await readDeclarations();
  requireDistinct(registered);
  const files = new Set(registered.map(({ file }) => join(CELLS, `${file}.ts`)));
  const roles = new Map([...files].flatMap((file) => [...rolesIn(file)]));
  return new Map([
    [join(CELLS, "functions.json"), functionsJson(registered)],
    [join(CELLS, "functions.generated.ts"), registryModule(registered, roles)],
    [join(CELLS, "calls.generated.ts"), callsModule(registered)],
    ["docs/functions.md", functionsPage(registered.map(({ declaration }) => declaration))],
    ["docs/sources.md", sourcesPage(citationsIn("."))],
  ]);
}

export function staleFiles(files: ReadonlyMap<string, string>): readonly string[] {
  return [...files].filter(([path, text]) => currentText(path) !== text).map(([path]) => path);
}

function currentText(path: string): string | null {
  try {
    return readFileSync(path, "utf8");
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code === "ENOENT") return null;
    throw cause;
  }
}

if (process.argv[1]?.endsWith("generate-functions.js")) {
  const files = await generatedFiles();
  const stale = staleFiles(files);
  if (process.argv.includes("--check")) {
    if (stale.length > 0) {
      console.error(`Stale: ${stale.join(", ")}. Run "npm run generate" and commit the result.`);
      process.exitCode = 1;
    }
  } else {
    for (const path of stale) {
      mkdirSync(dirname(path), { recursive: true });
      writeFileSync(path, files.get(path) as string);
    }
    console.log(stale.length === 0 ? "Nothing to change." : `Wrote ${stale.join(", ")}.`);
  }
}
