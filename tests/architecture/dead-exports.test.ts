import { readdirSync, readFileSync } from "node:fs";
import { join, relative, resolve } from "node:path";
import ts from "typescript";
import { describe, expect, it } from "vitest";

/*
 * The finder of dead code takes every door of a layer for an entry, so that what a door exports is never dead for it.
 * Here a function is alive when something in src names it beside its own file and the door.
 */

const root = resolve(import.meta.dirname, "../..");
const src = join(root, "src");

const files = readdirSync(src, { recursive: true, encoding: "utf8" })
  .filter((file) => /\.tsx?$/.test(file) && !file.endsWith(".d.ts"))
  .map((file) => join(src, file));

/** The names that a file says in its code, comments left out. */
function namesIn(text: string): ReadonlySet<string> {
  const scanner = ts.createScanner(ts.ScriptTarget.ES2022, true, ts.LanguageVariant.JSX, text);
  const names = new Set<string>();
  for (let token = scanner.scan(); token !== ts.SyntaxKind.EndOfFileToken; token = scanner.scan()) {
    if (token === ts.SyntaxKind.Identifier) names.add(scanner.getTokenText());
  }
  return names;
}

interface Exported {
  readonly name: string;
  readonly file: string;
}

/** What a door exports as values, each with its file. */
function exportedBy(door: string): readonly Exported[] {
  const source = ts.createSourceFile(door, readFileSync(door, "utf8"), ts.ScriptTarget.ES2022, true);
  return source.statements.filter(ts.isExportDeclaration).flatMap((statement) => {
    const { exportClause, moduleSpecifier } = statement;
    if (statement.isTypeOnly || exportClause === undefined || !ts.isNamedExports(exportClause)) return [];
    const from = moduleSpecifier !== undefined && ts.isStringLiteral(moduleSpecifier) ? moduleSpecifier.text : "";
    const file = resolve(door, "..", from.replace(/\.js$/, ".ts"));
    return exportClause.elements.filter(({ isTypeOnly }) => !isTypeOnly).map(({ name }) => ({ name: name.text, file }));
  });
}

/** Exports of a door that nothing in src uses. */
function unusedOf(door: string, names: ReadonlyMap<string, ReadonlySet<string>>): readonly Exported[] {
  return exportedBy(door).filter(
    ({ name, file }) => ![...names].some(([other, said]) => other !== door && other !== file && said.has(name)),
  );
}

/** What nothing calls yet, and why it stays. */
const KEPT: Readonly<Record<string, string>> = {
  rectangleAreaUncertainty: "the ± of an area from its tape: the budget takes it as one figure so far",
  roundAreaUncertainty: "the same for a round opening",
  standardVelocity:
    "the way back of actualVelocity, with a published case: AIR.STANDARD takes airflows, not velocities",
};

describe("what the door of core exports", () => {
  const names = new Map(files.map((file) => [file, namesIn(readFileSync(file, "utf8"))]));
  const unused = unusedOf(join(src, "core/index.ts"), names);

  it("is called somewhere in src, conversions excepted, which come with their way back", () => {
    const dead = unused.filter(({ file }) => !relative(src, file).startsWith("core/units/"));
    expect(dead.map(({ name }) => name).sort()).toEqual(Object.keys(KEPT).sort());
  });

  it("is found dead where nothing calls it", () => {
    expect(names.get(join(src, "core/flow/airflow.ts"))?.has("airflow")).toBe(true);
    const alone = new Map([[join(src, "core/index.ts"), new Set(["airflow"])]]);
    expect(unusedOf(join(src, "core/index.ts"), alone).length).toBe(exportedBy(join(src, "core/index.ts")).length);
  });
});
