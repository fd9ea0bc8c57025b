import { readFileSync } from "node:fs";
import { packageFile } from "../../hosts/file/package-file.js";

/** Where what the judges said is kept. */
export const JUDGED_PATH = packageFile("tests/engine/corpus/judged.tsv");

/** A formula, and what it gives by documentation where that and not the judges decides. */
export interface CorpusCase {
  readonly formula: string;
  /** As `spelledResult` spells it. */
  readonly documented: string | undefined;
  readonly source: string | undefined;
}

/** Reads the corpus: a formula a line; where documentation decides, ` => `, its result, ` | ` and where it says so follow. */
export function readCorpus(): readonly CorpusCase[] {
  const text = readFileSync(packageFile("tests/engine/corpus/formulas.txt"), "utf8");
  return text.split("\n").flatMap((line) => {
    if (line === "" || line.startsWith("#")) return [];
    const [formula = "", decided] = line.split(" => ");
    const [documented, source] = decided?.split(" | ") ?? [];
    return [{ formula, documented, source }];
  });
}

/** What one formula gave in a spreadsheet program. */
export interface Judged {
  readonly libreOffice: string;
  readonly gnumeric: string;
}

/** Reads what the judges said, by formula. */
export function readJudged(): ReadonlyMap<string, Judged> {
  const lines = readFileSync(JUDGED_PATH, "utf8").split("\n").slice(1);
  return new Map(
    lines.flatMap((line) => {
      const [formula, libreOffice, gnumeric] = line.split("\t");
      return formula === undefined || libreOffice === undefined || gnumeric === undefined
        ? []
        : [[formula, { libreOffice, gnumeric }] as const];
    }),
  );
}

/** Spells a result on one line: a number bare, a text in quotes, a truth value or an error by its name. */
export function spelledResult(value: number | string | boolean | null | { readonly error: string }): string {
  if (value === null) return "nothing";
  if (typeof value === "string") return JSON.stringify(value);
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  return typeof value === "object" ? value.error : String(value);
}

const TOLERANCE = 1e-12;

/** Whether two spelled results are the same: numbers to 1e-12 of their size. */
export function isSameResult(one: string, other: string): boolean {
  if (one === other) return true;
  const [a, b] = [Number(one), Number(other)];
  if (one === "" || other === "" || Number.isNaN(a) || Number.isNaN(b)) return false;
  return Math.abs(a - b) <= TOLERANCE * Math.max(1, Math.abs(a), Math.abs(b));
}
