import { formatRange, type Sheet } from "../../xlsx/index.js";

/** A block of cells with one style of the file. */
export interface StyleZone {
  readonly range: string;
  readonly style: number;
}

interface Run {
  readonly firstRow: number;
  readonly lastRow: number;
  readonly style: number;
}

/** Styles of a column's cells from the top: a cell's own, else its row's, else its column's. */
function stylesByColumn(sheet: Sheet, rowCount: number, columnCount: number): readonly Uint32Array[] {
  const { cells, layout } = sheet;
  const columns = Array.from({ length: columnCount }, () => new Uint32Array(rowCount + 1));
  for (const { first, last, style } of layout.columnStyles) {
    for (let column = first; column <= Math.min(last, columnCount); column += 1) columns[column - 1]?.fill(style);
  }
  for (let index = 0; index < cells.rowCount; index += 1) {
    const row = cells.rowNumbers[index] as number;
    const rowStyle = cells.rowStyles[index] as number;
    if (rowStyle >= 0) for (const column of columns) column[row] = rowStyle;
    const end = cells.rowFirstCells[index + 1] as number;
    for (let cell = cells.rowFirstCells[index] as number; cell < end; cell += 1) {
      const column = columns[(cells.columns[cell] as number) - 1];
      if (column !== undefined) column[row] = cells.styles[cell] as number;
    }
  }
  return columns;
}

function runsOf(styles: Uint32Array): readonly Run[] {
  const runs: Run[] = [];
  let firstRow = 1;
  for (let row = 2; row <= styles.length; row += 1) {
    if (row < styles.length && styles[row] === styles[firstRow]) continue;
    runs.push({ firstRow, lastRow: row - 1, style: styles[firstRow] as number });
    firstRow = row;
  }
  return runs;
}

/** Returns the styled blocks of a sheet: runs down a column, joined with the same runs of the columns beside it. */
export function styleZones(sheet: Sheet, rowCount: number, columnCount: number): readonly StyleZone[] {
  const zones: StyleZone[] = [];
  let open = new Map<string, Run & { readonly firstColumn: number; lastColumn: number }>();
  const close = (run: Run & { readonly firstColumn: number; lastColumn: number }): void => {
    zones.push({ range: formatRange(run), style: run.style });
  };
  stylesByColumn(sheet, rowCount, columnCount).forEach((styles, index) => {
    const column = index + 1;
    const next: typeof open = new Map();
    for (const run of runsOf(styles)) {
      const key = `${run.firstRow}:${run.lastRow}:${run.style}`;
      const known = open.get(key);
      if (known !== undefined) known.lastColumn = column;
      next.set(key, known ?? { ...run, firstColumn: column, lastColumn: column });
      open.delete(key);
    }
    for (const run of open.values()) close(run);
    open = next;
  });
  for (const run of open.values()) close(run);
  return zones;
}
