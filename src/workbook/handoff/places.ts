import { isWrittenSize } from "../../cells/index.js";
import {
  type CellRange,
  cellsIn,
  cellsMeant,
  type PlacedTable,
  parseRange,
  readReference,
  readSheet,
  WORKBOOK_LIMITS,
  type Workbook,
  withoutTableReferences,
} from "../../xlsx/index.js";

/** The cell in which a formula stands. */
export interface FormulaPlace {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

/** A block of cells on a sheet. */
export interface Area {
  readonly sheet: string;
  readonly range: CellRange;
}

/** Knows what the references of a workbook's formulas refer to. */
export interface Places {
  /** A reference as one to cells, parts of tables and all; undefined where a table or column is not there. */
  withoutTables(text: string, place: FormulaPlace): string | undefined;
  /** The cells that a reference means; undefined for a name, several sheets, another workbook or none. */
  areaOf(text: string, place: FormulaPlace): Area | undefined;
  /** What a defined name stands for, without the equals sign; undefined where there is no such name. */
  named(name: string, sheet: string): string | undefined;
  /** The block that the formula of a cell fills. */
  filledFrom(area: Area): CellRange | undefined;
  /** Whether a cell of a block holds a size as text, `12 1/2"`, which our functions read and plain formulas do not. */
  holdsWrittenSize(area: Area): boolean;
}

const WHOLE_SHEET = { lastRow: WORKBOOK_LIMITS.rows, lastColumn: WORKBOOK_LIMITS.columns };

function areaOf(text: string, { sheet, row, column }: FormulaPlace): Area | undefined {
  if (/^\[|^'[^']*\[|:.*!/u.test(text)) return undefined;
  const reference = readReference(text, row, column);
  if (reference === undefined) return undefined;
  return { sheet: reference.sheet ?? sheet, range: cellsMeant(reference, row, column, WHOLE_SHEET) };
}

/** Takes the name of the formula's own sheet from a reference to it. */
function onOwnSheet(text: string, sheet: string): string {
  const own = `'${sheet.replaceAll("'", "''")}'!`;
  return text.toLowerCase().startsWith(own.toLowerCase()) ? text.slice(own.length) : text;
}

/** Knows references to cells alone: for a formula that stands in no workbook. */
export const NO_PLACES: Places = {
  withoutTables: (text) => (text.includes("[") ? undefined : text),
  areaOf,
  named: () => undefined,
  filledFrom: () => undefined,
  holdsWrittenSize: () => false,
};

export function placesIn(workbook: Workbook): Places {
  const worksheets = workbook.sheets.filter(({ kind }) => kind === "worksheet");
  const tables: readonly PlacedTable[] = worksheets.flatMap(({ name }) =>
    readSheet(workbook, name).tables.map((table) => ({ sheet: name, table })),
  );
  const names = new Map(
    workbook.names.map(({ name, sheet, refersTo }) => [
      `${sheet?.toLowerCase() ?? ""}!${name.toLowerCase()}`,
      refersTo,
    ]),
  );
  const filled = new Map<string, ReadonlyMap<string, CellRange>>();
  function filledOn(sheet: string): ReadonlyMap<string, CellRange> {
    const known = filled.get(sheet.toLowerCase());
    if (known !== undefined) return known;
    const found = worksheets.find(({ name }) => name.toLowerCase() === sheet.toLowerCase());
    const formulas = found === undefined ? [] : readSheet(workbook, found.name).cells.formulas;
    const blocks = new Map<string, CellRange>();
    for (const { kind, range, row, column } of formulas) {
      const block = kind === "array" && range !== undefined ? parseRange(range) : undefined;
      if (block !== undefined) blocks.set(`${row}:${column}`, block);
    }
    filled.set(sheet.toLowerCase(), blocks);
    return blocks;
  }
  return {
    withoutTables(text, place) {
      if (!text.includes("[") || /^'?\[\d/u.test(text)) return text;
      const plain = withoutTableReferences(text, place, tables);
      return plain === undefined ? undefined : onOwnSheet(plain, place.sheet);
    },
    areaOf,
    named: (name, sheet) =>
      names.get(`${sheet.toLowerCase()}!${name.toLowerCase()}`) ?? names.get(`!${name.toLowerCase()}`),
    holdsWrittenSize({ sheet, range }) {
      const found = worksheets.find(({ name }) => name.toLowerCase() === sheet.toLowerCase());
      if (found === undefined) return false;
      for (const { value } of cellsIn(readSheet(workbook, found.name), range)) {
        if (typeof value === "string" && isWrittenSize(value)) return true;
      }
      return false;
    },
    filledFrom: ({ sheet, range }) => filledOn(sheet).get(`${range.firstRow}:${range.firstColumn}`),
  };
}
