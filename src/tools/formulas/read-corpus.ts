import { readFileSync } from "node:fs";
import { packageFile } from "../../hosts/file/package-file.js";

/** Where what the judges said is kept. */
export const JUDGED_PATH = packageFile("tests/engine/corpus/judged.tsv");

/** A formula, and what it gives by a rule where that and not the judges decides. */
export interface CorpusCase {
  readonly formula: string;
  /** What it gives, as `spelledResult` spells it, or the name of the judge that is right. */
  readonly decided: string | undefined;
  /** The name of the rule that decides. */
  readonly rule: string | undefined;
}

/** Reads the corpus: a formula a line; where a rule decides, ` => `, its result, ` | ` and the rule's name follow. */
export function readCorpus(): readonly CorpusCase[] {
  const text = readFileSync(packageFile("tests/engine/corpus/formulas.txt"), "utf8");
  return text.split("\n").flatMap((line) => {
    if (line === "" || line.startsWith("#")) return [];
    const [formula = "", decision] = line.split(" => ");
    const [decided, rule] = decision?.split(" | ") ?? [];
    return [{ formula, decided, rule: rule?.split(":")[0] }];
  });
}

/** How well a rule is founded. */
const STANDINGS = ["read", "stored", "from memory", "one judge", "no source"] as const;

/** A rule that decides where the judges do not, as a row of rules.md. */
export interface CorpusRule {
  readonly name: string;
  readonly says: string;
  readonly source: string;
  readonly standing: (typeof STANDINGS)[number];
}

/** Reads the rules. @throws {Error} Where a row is not whole */
export function readRules(): readonly CorpusRule[] {
  const text = readFileSync(packageFile("tests/engine/corpus/rules.md"), "utf8");
  return text
    .split("\n")
    .filter((line) => /^\| [a-z0-9]+(-[a-z0-9]+)* \|/.test(line) && !line.startsWith("| rule |"))
    .map((line) => {
      const [name = "", says = "", source = "", given = ""] = line
        .slice(1, -1)
        .split("|")
        .map((part) => part.trim());
      const standing = STANDINGS.find((one) => one === given);
      if (says === "" || source === "" || standing === undefined) throw new Error(`rules.md: ${name} is not whole`);
      return { name, says, source, standing };
    });
}

/** What a formula should give: what its rule says, else what both judges say; undefined where nothing decides. */
export function wantedResult({ decided }: CorpusCase, { libreOffice, gnumeric }: Judged): string | undefined {
  if (decided === "LibreOffice") return libreOffice;
  if (decided === "Gnumeric") return gnumeric;
  return decided ?? (isSameResult(libreOffice, gnumeric) ? libreOffice : undefined);
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
