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
  readonly columns: Uint16Array;
  readonly kinds: Uint8Array;
  readonly numbers: Float64Array;
  readonly styles: Uint32Array;
  readonly starts: Uint32Array;
  readonly ends: Uint32Array;
  /** Index into `formulas`, -1 for none. */
  readonly formulaIndexes: Int32Array;
  readonly texts: readonly string[];
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

type Numbers = Uint8Array | Uint16Array | Uint32Array | Int32Array | Float64Array;

function grow<T extends Numbers>(array: T, length: number): T {
  if (length < array.length) return array;
  const larger = new (array.constructor as new (length: number) => T)(array.length * 2);
  larger.set(array);
  return larger;
}

/** Collects rows and cells; arrays double when they are full. */
export function makeCellTableBuilder() {
  let rowCount = 0;
  let cellCount = 0;
  let rowNumbers = new Uint32Array(64);
  let rowFirstCells = new Uint32Array(64);
  let rowStarts = new Uint32Array(64);
  let rowOpenEnds = new Uint32Array(64);
  let rowEnds = new Uint32Array(64);
  let rowStyles = new Int32Array(64);
  let columns = new Uint16Array(256);
  let kinds = new Uint8Array(256);
  let numbers = new Float64Array(256);
  let styles = new Uint32Array(256);
  let starts = new Uint32Array(256);
  let ends = new Uint32Array(256);
  let formulaIndexes = new Int32Array(256);
  const texts: string[] = [];
  const textIndexes = new Map<string, number>();
  const formulas: StoredFormula[] = [];
  const masters = new Map<number, number>();
  const tails = new Map<number, number>();
  return {
    cellCount: (): number => cellCount,
    openRow(number: number, style: number, start: number, openEnd: number): void {
      // One more than there are rows: the end of the last row's cells is kept too.
      rowFirstCells = grow(rowFirstCells, rowCount + 1);
      rowNumbers = grow(rowNumbers, rowCount);
      rowStarts = grow(rowStarts, rowCount);
      rowOpenEnds = grow(rowOpenEnds, rowCount);
      rowEnds = grow(rowEnds, rowCount);
      rowStyles = grow(rowStyles, rowCount);
      rowNumbers[rowCount] = number;
      rowFirstCells[rowCount] = cellCount;
      rowStarts[rowCount] = start;
      rowOpenEnds[rowCount] = openEnd;
      rowStyles[rowCount] = style;
    },
    closeRow(end: number): void {
      rowEnds[rowCount] = end;
      rowCount += 1;
      rowFirstCells[rowCount] = cellCount;
    },
    addCell(cell: CellRecord): void {
      columns = grow(columns, cellCount);
      kinds = grow(kinds, cellCount);
      numbers = grow(numbers, cellCount);
      styles = grow(styles, cellCount);
      starts = grow(starts, cellCount);
      ends = grow(ends, cellCount);
      formulaIndexes = grow(formulaIndexes, cellCount);
      columns[cellCount] = cell.column;
      kinds[cellCount] = cell.kind;
      numbers[cellCount] = cell.number;
      styles[cellCount] = cell.style;
      starts[cellCount] = cell.start;
      ends[cellCount] = cell.end;
      formulaIndexes[cellCount] = cell.formulaIndex;
      cellCount += 1;
    },
    /** Keeps each text once. */
    addText(text: string): number {
      const known = textIndexes.get(text);
      if (known !== undefined) return known;
      textIndexes.set(text, texts.length);
      return texts.push(text) - 1;
    },
    /** `share` is the number by which formulas share their text, -1 for none. */
    addFormula(formula: StoredFormula, share: number): number {
      const index = formulas.length;
      if (share >= 0 && formula.text !== "") masters.set(share, index);
      if (share >= 0) formula.masterIndex = masters.get(share) ?? -1;
      formulas.push(formula);
      return index;
    },
    addTail(offset: number): void {
      tails.set(cellCount, offset);
    },
    build(): CellTable {
      return {
        rowCount,
        cellCount,
        rowNumbers,
        rowFirstCells,
        rowStarts,
        rowOpenEnds,
        rowEnds,
        rowStyles,
        columns,
        kinds,
        numbers,
        styles,
        starts,
        ends,
        formulaIndexes,
        texts,
        formulas,
        tails,
      };
    },
  };
}

/** Returns the index of a row, or the complement of the index where it would stand. */
export function findRow(table: CellTable, row: number): number {
  return search(table.rowNumbers, 0, table.rowCount, row);
}

/** Returns the index of a cell, or the complement of the index where it would stand in its row. */
export function findCell(table: CellTable, rowIndex: number, column: number): number {
  const first = table.rowFirstCells[rowIndex] as number;
  return search(table.columns, first, table.rowFirstCells[rowIndex + 1] as number, column);
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
