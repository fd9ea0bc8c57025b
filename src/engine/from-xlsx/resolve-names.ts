import {
  type DefinedName,
  findSheetEntry,
  moveFormula,
  parseRange,
  scanFormula,
  type Workbook,
} from "../../xlsx/index.js";

/** Names within names; a file whose names go round in a circle ends here. */
const DEEPEST = 8;

/** Names that the file format keeps for itself: print areas, filters. */
const BUILT_IN = /^_xlnm\./i;

/** What the engine takes for a name; three letters and digits are a cell to it. */
const ENGINE_NAME = /^(?![A-Za-z]{1,3}\d+$)[A-Za-z_][A-Za-z0-9_.]*$/;

/** One block of one sheet: 'Floor 1'!$B$3:$B$9. */
const ONE_RANGE = /^('(?:[^']|'')+'|[^'!()+\-*/,&<>=^"]+)!(\$?[A-Za-z]{1,3}\$?\d+(?::\$?[A-Za-z]{1,3}\$?\d+)?)$/;

/** The defined names of a workbook as formulas of the engine need them. */
export interface ResolvedNames {
  /** Names that the engine keeps itself, and the block that each stands for. */
  readonly ranges: Readonly<Record<string, string>>;
  /** Whether one of these stands for more than one cell. */
  isBlock(name: string): boolean;
  /** Spells the other names out in a formula of a cell; the cell counts from 1. */
  inFormula(formula: string, sheet: string, row: number, column: number): string;
}

function rangeOf(workbook: Workbook, { refersTo }: DefinedName): string | undefined {
  const [, sheet = "", range = ""] = ONE_RANGE.exec(refersTo) ?? [];
  const name = sheet.startsWith("'") ? sheet.slice(1, -1).replaceAll("''", "'") : sheet;
  return findSheetEntry(workbook, name)?.kind === "worksheet" && parseRange(range) !== undefined ? refersTo : undefined;
}

/** Sorts the names of a workbook: blocks are names to the engine too, everything else is spelled out where it is used. */
export function resolveNames(workbook: Workbook): ResolvedNames {
  const ranges: Record<string, string> = Object.create(null);
  const spelled = new Map<string, string>();
  const keyOf = (name: string, sheet: string | undefined) => `${sheet?.toLowerCase() ?? ""}!${name.toLowerCase()}`;
  for (const name of workbook.names) {
    if (BUILT_IN.test(name.name)) continue;
    const range = name.sheet === undefined && ENGINE_NAME.test(name.name) ? rangeOf(workbook, name) : undefined;
    if (range !== undefined) ranges[name.name] = range;
    else spelled.set(keyOf(name.name, name.sheet), name.refersTo);
  }
  const inFormula = (formula: string, sheet: string, row: number, column: number, depth: number): string => {
    if (spelled.size === 0 || depth > DEEPEST) return formula;
    const tokens = scanFormula(formula);
    return tokens
      .map(({ kind, text }, index) => {
        if (kind !== "name" || /^[(!]$/.test(tokens[index + 1]?.text ?? "")) return text;
        const refersTo = spelled.get(keyOf(text, sheet)) ?? spelled.get(keyOf(text, undefined));
        // A relative reference in a name is stored as seen from the first cell.
        return refersTo === undefined
          ? text
          : `(${inFormula(moveFormula(refersTo, row - 1, column - 1), sheet, row, column, depth + 1)})`;
      })
      .join("");
  };
  const blocks = new Set(
    Object.entries(ranges).flatMap(([name, range]) => (range.includes(":") ? [name.toUpperCase()] : [])),
  );
  return {
    ranges,
    isBlock: (name) => blocks.has(name.toUpperCase()),
    inFormula: (formula, sheet, row, column) => inFormula(formula, sheet, row, column, 0),
  };
}
