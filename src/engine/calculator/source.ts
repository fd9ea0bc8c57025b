/** A cell's value in a file: null is a blank cell, an error shows its code. */
export type SourceValue = number | string | boolean | null | { readonly error: string };

/** A block of cells by its corners, both included; rows and columns count from 1. */
export interface SourceRange {
  readonly firstRow: number;
  readonly firstColumn: number;
  readonly lastRow: number;
  readonly lastColumn: number;
}

/** A formula of a file, without its equals sign, as the file or a person spells it. */
export interface SourceFormula {
  readonly row: number;
  readonly column: number;
  readonly text: string;
  /** The cells that the formula fills when it is not its own cell alone. */
  readonly fills: SourceRange | undefined;
  /** Whether that block finds its own size: cells left over are then empty, and #N/A otherwise. */
  readonly isDynamic: boolean;
}

export interface SourceSheet {
  readonly name: string;
  /** Defined names that are known on this sheet alone, and what each refers to. */
  readonly names?: ReadonlyMap<string, string>;
  readonly lastRow: number;
  readonly lastColumn: number;
  /** The stored value of a cell; for a formula its last result. */
  valueAt(row: number, column: number): SourceValue;
  /** Whether a row is in view, or hidden by a person or by a filter. */
  rowStateAt(row: number): "shown" | "hidden" | "filtered";
  /** Read once, in any order. */
  readonly formulas: Iterable<SourceFormula>;
}

/** What the calculator needs to know of a workbook, whoever holds it. */
export interface FormulaSource {
  readonly sheets: readonly SourceSheet[];
  /** Defined names that are known everywhere, and what each refers to, without the equals sign. */
  readonly names: ReadonlyMap<string, string>;
  /** Spells references to tables as references to cells; undefined where a table, column or item is not there. */
  readonly withoutTables?: (text: string, cell: CellPlace) => string | undefined;
}

export interface CellPlace {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

export interface CalculatedCell extends CellPlace {
  readonly value: number | string | boolean | { readonly error: string; readonly message: string };
}

/** A formula that was not calculated, and why. */
export interface KeptCell extends CellPlace {
  readonly reason: string;
  /**
   * Whether its stored value is known to be old, because something that it reads has changed, or there is none; otherwise
   * the stored value stays.
   */
  readonly isOutdated: boolean;
  /** The cells that it fills when it is not its own cell alone. */
  readonly fills: SourceRange | undefined;
}

/** What calculating a workbook gave. Cells that nothing asked to calculate are in neither list. */
export interface Calculation {
  /** How many formulas were calculated; one may fill several cells. */
  readonly calculatedCount: number;
  readonly calculated: readonly CalculatedCell[];
  readonly kept: readonly KeptCell[];
}
