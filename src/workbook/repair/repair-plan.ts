import { columnLetters } from "../../xlsx/address.js";
import { formulaTrouble } from "./stuck-formula.js";

/** A formula to enter again, and where. */
export interface StuckFormula {
  readonly row: number;
  readonly column: number;
  readonly typed: string;
}

/** A formula that asks for a function which this version does not have. */
export interface UnknownFormula {
  readonly sheet: string;
  readonly address: string;
  readonly functionName: string;
}

/** What a sheet shows, cell by cell, from the given corner on. */
export interface ShownSheet {
  readonly sheet: string;
  readonly isProtected: boolean;
  readonly firstRow: number;
  readonly firstColumn: number;
  /** As the sheet shows them, with the equals sign, null where a cell holds none. */
  readonly formulas: readonly (readonly (string | null)[])[];
  /** The error code of a cell, null where it shows none. */
  readonly errors: readonly (readonly (string | null)[])[];
}

export interface SheetRepair {
  readonly sheet: string;
  /** Whether protection must be lifted for it and put back. */
  readonly isProtected: boolean;
  readonly formulas: readonly StuckFormula[];
}

/** What a repair would do, for the person to agree to. */
export interface RepairPlan {
  /** How many formulas would be entered again. */
  readonly count: number;
  /** The sheets that hold them. */
  readonly sheets: readonly SheetRepair[];
  readonly unknown: readonly UnknownFormula[];
}

function sheetRepair(shown: ShownSheet): { readonly repair: SheetRepair; readonly unknown: readonly UnknownFormula[] } {
  const formulas: StuckFormula[] = [];
  const unknown: UnknownFormula[] = [];
  shown.formulas.forEach((cells, rowIndex) => {
    cells.forEach((formula, columnIndex) => {
      if (formula === null) return;
      const trouble = formulaTrouble(formula, shown.errors[rowIndex]?.[columnIndex] ?? null);
      const row = shown.firstRow + rowIndex;
      const column = shown.firstColumn + columnIndex;
      if (trouble?.kind === "stuck") formulas.push({ row, column, typed: trouble.typed });
      if (trouble?.kind === "unknown") {
        const address = `${columnLetters(column)}${row}`;
        unknown.push({ sheet: shown.sheet, address, functionName: trouble.functionName });
      }
    });
  });
  return { repair: { sheet: shown.sheet, isProtected: shown.isProtected, formulas }, unknown };
}

/** Finds every formula that is to be entered again, sheet by sheet. */
export function repairPlan(shown: readonly ShownSheet[]): RepairPlan {
  const all = shown.map(sheetRepair);
  const sheets = all.map(({ repair }) => repair).filter(({ formulas }) => formulas.length > 0);
  const count = sheets.reduce((sum, { formulas }) => sum + formulas.length, 0);
  return { count, sheets, unknown: all.flatMap(({ unknown }) => unknown) };
}
