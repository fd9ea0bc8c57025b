import { scanFormula } from "../formula/scan-formula.js";

/** New names for what formulas refer to, by the old name in lower case. */
export interface Renames {
  readonly sheets: ReadonlyMap<string, string>;
  readonly tables: ReadonlyMap<string, string>;
  /** Defined names that cannot keep their name, and what each refers to. */
  readonly names: ReadonlyMap<string, string>;
}

/** Spells a sheet's name as a formula does. */
export function quotedSheet(name: string): string {
  return `'${name.replaceAll("'", "''")}'`;
}

/** Returns a formula as it reads after sheets and tables have new names; a name that is lost is spelled out. */
export function renameFormula(formula: string, { sheets, tables, names }: Renames): string {
  const tokens = scanFormula(formula);
  return tokens
    .map(({ kind, text }, index) => {
      const next = tokens[index + 1];
      if (kind !== "sheet" && kind !== "name") return text;
      if (next?.text === "!") {
        const name = kind === "sheet" ? text.slice(1, -1).replaceAll("''", "'") : text;
        const renamed = sheets.get(name.toLowerCase());
        return renamed === undefined ? text : quotedSheet(renamed);
      }
      if (kind === "sheet" || next?.text === "(") return text;
      const lower = text.toLowerCase();
      return (next?.kind === "bracket" ? tables.get(lower) : names.get(lower)) ?? text;
    })
    .join("");
}
