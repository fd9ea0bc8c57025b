/** What a cell's number in `numbers` means. */
export const CELL_KIND = {
  blank: 0,
  number: 1,
  /** Index into the workbook's strings. */
  sharedText: 2,
  /** Index into the table's own texts. */
  ownText: 3,
  boolean: 4,
  /** Index of the error's name in the table's own texts. */
  error: 5,
} as const;

/** A formula as stored. Offsets are those of its element. */
export interface StoredFormula {
  readonly kind: "plain" | "shared" | "array" | "dataTable";
  readonly text: string;
  /** The `ref` of an array formula, a data table, or the first cell of a shared formula. */
  readonly range: string | undefined;
  /** Whether its cell has cell metadata: then an array formula is a dynamic one. */
  readonly isDynamic: boolean;
  /** The cell that holds it. */
  readonly row: number;
  readonly column: number;
  /** For a shared formula, the index of the formula that spells its text; -1 for none. */
  masterIndex: number;
  readonly start: number;
  readonly end: number;
}

/** The cells of a sheet, a column per property, rows and cells in ascending order. */
export interface CellTable {
  readonly rowCount: number;
  readonly cellCount: number;
  readonly rowNumbers: Uint32Array;
  /** Index of each row's first cell, and one more for the end. */
  readonly rowFirstCells: Uint32Array;
  readonly rowStarts: Uint32Array;
  readonly rowOpenEnds: Uint32Array;
  readonly rowEnds: Uint32Array;
  /** Style of a row that has one, else -1. */
  readonly rowStyles: Int32Array;
  /** 1 for a row that is hidden, whatever hides it; else 0. */
  readonly rowsHidden: Uint8Array;
  readonly columns: Uint16Array;
  readonly kinds: Uint8Array;
  readonly numbers: Float64Array;
  readonly styles: Uint32Array;
  readonly starts: Uint32Array;
  readonly ends: Uint32Array;
  /** Index into `formulas`, -1 for none. */
  readonly formulaIndexes: Int32Array;
  readonly texts: readonly string[];
  /** Read when they are first asked for: whoever only sums up results needs none of them. */
  readonly formulas: readonly StoredFormula[];
  /** For the few cells with content after their value, where that starts. */
  readonly tails: ReadonlyMap<number, number>;
}

/** Values of one cell on its way into the table. */
export interface CellRecord {
  column: number;
  kind: number;
  number: number;
  style: number;
  start: number;
  end: number;
  formulaIndex: number;
}

/** A table in the making; its arrays double when they are full. */
export interface CellTableBuilder {
  rowCount: number;
  cellCount: number;
  readonly rows: ReturnType<typeof rowArrays>;
  readonly cells: ReturnType<typeof cellArrays>;
  readonly texts: string[];
  readonly textIndexes: Map<string, number>;
  /** How many were found; `formulas` holds them, unless they are left to be read when asked for. */
  formulaCount: number;
  readonly formulas: StoredFormula[];
  /** By the number under which formulas share their text. */
  readonly masters: Map<number, number>;
  readonly tails: Map<number, number>;
}

/** One more than there are rows is kept of each: the end of the last row's cells. */
function rowArrays(length: number) {
  return {
    rowNumbers: new Uint32Array(length),
    rowFirstCells: new Uint32Array(length),
    rowStarts: new Uint32Array(length),
    rowOpenEnds: new Uint32Array(length),
    rowEnds: new Uint32Array(length),
    rowStyles: new Int32Array(length),
    rowsHidden: new Uint8Array(length),
  };
}

function cellArrays(length: number) {
  return {
    columns: new Uint16Array(length),
    kinds: new Uint8Array(length),
    numbers: new Float64Array(length),
    styles: new Uint32Array(length),
    starts: new Uint32Array(length),
    ends: new Uint32Array(length),
    formulaIndexes: new Int32Array(length),
  };
}

const FIRST_ROWS = 256;
const FIRST_CELLS = 2048;

export function makeCellTableBuilder(): CellTableBuilder {
  return {
    rowCount: 0,
    cellCount: 0,
    rows: rowArrays(FIRST_ROWS),
    cells: cellArrays(FIRST_CELLS),
    texts: [],
    textIndexes: new Map(),
    formulaCount: 0,
    formulas: [],
    masters: new Map(),
    tails: new Map(),
  };
}

type NumberArray = Uint8Array | Uint16Array | Uint32Array | Int32Array | Float64Array;

/** Doubles arrays one after the other, so that no more than one is there twice at a time. */
function growAll(arrays: Record<string, NumberArray>): void {
  for (const [name, array] of Object.entries(arrays)) {
    const larger = new (array.constructor as new (length: number) => NumberArray)(array.length * 2);
    larger.set(array);
    arrays[name] = larger;
  }
}

export function addRow(
  builder: CellTableBuilder,
  number: number,
  style: number,
  hidden: number,
  start: number,
  openEnd: number,
): void {
  const { rowCount } = builder;
  const { rows } = builder;
  if (rowCount + 1 >= rows.rowNumbers.length) growAll(rows);
  rows.rowNumbers[rowCount] = number;
  rows.rowFirstCells[rowCount] = builder.cellCount;
  rows.rowStarts[rowCount] = start;
  rows.rowOpenEnds[rowCount] = openEnd;
  rows.rowStyles[rowCount] = style;
  rows.rowsHidden[rowCount] = hidden;
}

export function endRow(builder: CellTableBuilder, end: number): void {
  builder.rows.rowEnds[builder.rowCount] = end;
  builder.rowCount += 1;
  builder.rows.rowFirstCells[builder.rowCount] = builder.cellCount;
}

export function addCell(builder: CellTableBuilder, cell: CellRecord): void {
  const { cellCount } = builder;
  const { cells } = builder;
  if (cellCount >= cells.columns.length) growAll(cells);
  cells.columns[cellCount] = cell.column;
  cells.kinds[cellCount] = cell.kind;
  cells.numbers[cellCount] = cell.number;
  cells.styles[cellCount] = cell.style;
  cells.starts[cellCount] = cell.start;
  cells.ends[cellCount] = cell.end;
  cells.formulaIndexes[cellCount] = cell.formulaIndex;
  builder.cellCount += 1;
}

/** Keeps each text once. */
export function addText({ texts, textIndexes }: CellTableBuilder, text: string): number {
  const known = textIndexes.get(text);
  if (known !== undefined) return known;
  textIndexes.set(text, texts.length);
  return texts.push(text) - 1;
}

/** `share` is the number by which formulas share their text, -1 for none. */
export function addFormula(
  builder: Pick<CellTableBuilder, "formulas" | "formulaCount" | "masters">,
  formula: StoredFormula,
  share: number,
): number {
  const { formulas, masters } = builder;
  const index = formulas.length;
  builder.formulaCount += 1;
  if (share >= 0 && formula.text !== "") masters.set(share, index);
  if (share >= 0) formula.masterIndex = masters.get(share) ?? -1;
  formulas.push(formula);
  return index;
}

/**
 * The finished table; the builder is of no use afterwards.
 *
 * @param readFormulas - Reads the formulas where the builder was only told that they are there
 */
export function cellTable(
  { rowCount, cellCount, rows, cells, texts, formulas, formulaCount, tails }: CellTableBuilder,
  readFormulas: (table: CellTable) => readonly StoredFormula[],
): CellTable {
  let known: readonly StoredFormula[] | undefined = formulas.length === formulaCount ? formulas : undefined;
  const table: CellTable = {
    rowCount,
    cellCount,
    ...rows,
    ...cells,
    texts,
    get formulas() {
      known ??= readFormulas(table);
      return known;
    },
    tails,
  };
  return table;
}

/** Returns the index of a row, or the complement of the index where it would stand. */
export function findRow(table: CellTable, row: number): number {
  // Nearly always no row is left out.
  const index = row - (table.rowNumbers[0] as number);
  if (index >= 0 && index < table.rowCount && table.rowNumbers[index] === row) return index;
  return search(table.rowNumbers, 0, table.rowCount, row);
}

/** Returns the index of a cell, or the complement of the index where it would stand in its row. */
export function findCell(table: CellTable, rowIndex: number, column: number): number {
  const first = table.rowFirstCells[rowIndex] as number;
  const end = table.rowFirstCells[rowIndex + 1] as number;
  const index = first + column - (table.columns[first] as number);
  if (index >= first && index < end && table.columns[index] === column) return index;
  return search(table.columns, first, end, column);
}

function search(sorted: Uint32Array | Uint16Array, from: number, to: number, wanted: number): number {
  let low = from;
  let high = to;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((sorted[middle] as number) < wanted) low = middle + 1;
    else high = middle;
  }
  return low < to && sorted[low] === wanted ? low : ~low;
}
