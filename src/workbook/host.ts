import type { CellErrorCode } from "../cells/index.js";
import type { CheckReport } from "./checks/check-report.js";
import type { RepairOutcome } from "./repair/repair-outcome.js";
import type { RepairPlan } from "./repair/repair-plan.js";
import type { SourceName } from "./source/workbook-source.js";

import type { TemplateOptions } from "./template/template-options.js";

export { HostError } from "../xlsx/host-error.js";

/** The value of a cell in error, as every host reports it. */
export interface ErrorValue {
  readonly error: CellErrorCode;
  readonly message: string;
}

/** What a cell holds. Null is a cell with nothing in it, never zero. */
export type CellValue = number | string | boolean | null | ErrorValue;

/** A block of cells on one sheet, in A1 notation without the sheet: `B2:D9`. */
export interface BlockAddress {
  readonly sheet: string;
  readonly range: string;
}

/** What stands in a block, row by row. */
export interface CellBlock {
  readonly address: BlockAddress;
  readonly values: readonly (readonly CellValue[])[];
  /** With the equals sign and names as a person types them, null where the cell holds a value or nothing. */
  readonly formulas: readonly (readonly (string | null)[])[];
}

/** One block to write. A string that begins with "=" is a formula; null empties the cell. */
export interface BlockEdit {
  readonly address: BlockAddress;
  readonly cells: readonly (readonly (number | string | boolean | null)[])[];
}

export interface SheetInfo {
  readonly name: string;
  /** The used part of the sheet, null where it is empty. */
  readonly usedRange: string | null;
  readonly isProtected: boolean;
}

/** A table of a sheet, whose columns formulas call by name. */
export interface TableInfo {
  readonly name: string;
  readonly sheet: string;
  /** With its header and its row of totals. */
  readonly range: string;
  readonly headerRows: number;
  readonly totalsRows: number;
  readonly columns: readonly string[];
}

/** What of a sheet is merged, and what of it is out of sight. */
export interface SheetLayout {
  readonly sheet: string;
  /** In A1 notation. */
  readonly mergedRanges: readonly string[];
  /** From 1, in their order. */
  readonly hiddenRows: readonly number[];
}

/** Names of templates that a host can start a sheet from. */
export type TemplateId = "room-balance" | "duct-traverse" | "face-sweep" | "before-after" | "job-summary";

/**
 * The port that every host offers: what a sheet, a check, a roll-up and the pane need of a workbook.
 *
 * Every call is one batch. A write happens whole or not at all, and a failure is a `HostError` that says what stayed.
 */
export interface WorkbookHost {
  readonly kind: "excel" | "page" | "file";
  sheets(): Promise<readonly SheetInfo[]>;
  /** Reads blocks in one batch, in the order asked. */
  read(addresses: readonly BlockAddress[]): Promise<readonly CellBlock[]>;
  /** Writes blocks in one batch; never over a formula unless the edit is a formula. */
  write(edits: readonly BlockEdit[]): Promise<void>;
  /** Defined names of the workbook and what each refers to, as typed: `Inputs!$B$3`. */
  names(): Promise<ReadonlyMap<string, string>>;
  /**
   * Keeps what the columns of its lists hold (`namesOfMapping`), as names that nobody is shown, in place of what it kept.
   */
  keepColumns(names: readonly SourceName[]): Promise<void>;
  /** The tables of the workbook, where the host knows them: where a list ends, and what formulas call by name. */
  tables?(): Promise<readonly TableInfo[]>;
  /** The merged blocks and hidden rows in the used part of sheets, where the host knows them; in the order asked. */
  layouts?(sheets: readonly SheetInfo[]): Promise<readonly SheetLayout[]>;
  /**
   * Adds rows, and returns sentences on what did not follow; null where the person turned away.
   *
   * @throws {HostError} Where something cannot follow; the workbook is as it was
   */
  addRows?(edit: RowEdit): Promise<readonly string[] | null>;
  /** Adds the sheets of a template beside what is there and returns their names. */
  addTemplate(template: TemplateId, options?: TemplateOptions): Promise<readonly string[]>;
}

/** What a host offers to whoever only reads the workbook. */
export type ReadableHost = Pick<WorkbookHost, "kind" | "sheets" | "read" | "names" | "tables" | "layouts">;

/** Rows that a list gets, with the formulas, looks and rules of the rows beside them. */
export type RowEdit =
  /** New rows in a place, which push down what is there. */
  | { readonly kind: "insertRows"; readonly sheet: string; readonly row: number; readonly count: number }
  /** New rows at the end of the table around a row. */
  | { readonly kind: "growTable"; readonly sheet: string; readonly row: number; readonly count: number }
  /** The rows right below a table, as far as this one, join it with what is in them. */
  | { readonly kind: "extendTable"; readonly sheet: string; readonly row: number };

/** A workbook as a file. */
export interface WorkbookBytes {
  readonly bytes: Uint8Array;
  /** Under which name a person knows it: `House 12.xlsx`. */
  readonly name: string;
}

/** What tells the workbook at hand from others. */
export interface WorkbookIdentity {
  /** The id that this workbook was given and keeps; null where it has none yet. A copy of it has the same. */
  readonly id: string | null;
  /** Where it lies, as far as the host tells: a path, an address, or a name alone. */
  readonly place: string;
}

/** How a workbook writes what a person types. */
export interface WorkbookHabits {
  readonly decimalSign: "." | ",";
  /** From which year on days are counted: a day of 1904 has a number less by 1462. */
  readonly daysFrom: 1900 | 1904;
}

/** What a host with a person in front of it offers beside. */
export interface InteractiveHost extends WorkbookHost {
  /** Says which workbook is at hand. */
  identity(): Promise<WorkbookIdentity>;
  /** Gives the workbook an id that it keeps, in its file once it is saved. */
  keepIdentity(id: string): Promise<void>;
  /** Says how the workbook writes numbers and days; a point and 1900 where the host does not tell. */
  habits?(): Promise<WorkbookHabits>;
  /** Lets the host load the functions and the pane whenever this workbook is opened, or no longer. */
  loadWithWorkbook?(isWanted: boolean): Promise<void>;
  /** Shows the pane where the host keeps it out of sight. */
  showPane?(): Promise<void>;
  /** Calls the listener when the host begins to wait for the person and when it goes on; returns how to stop. */
  watchWaiting?(listener: (isWaiting: boolean) => void): () => void;
  /** Looks through the workbook elsewhere, where it would keep the person waiting here. */
  check?(): Promise<CheckReport>;
  select(address: BlockAddress): Promise<void>;
  selection(): Promise<BlockAddress | null>;
  /** Calls the listener after cells changed, by hand or by formula; returns how to stop. */
  watch(listener: (sheet: string) => void): Promise<() => Promise<void>>;
  /** Calls the listener after other cells were selected, or another sheet came to the front; returns how to stop. */
  watchSelection(listener: () => void): Promise<() => Promise<void>>;
  /**
   * Calls the listener at the moment when another workbook comes into view, before any of it is read; returns how to
   * stop. Only where one pane serves one workbook after the other.
   */
  watchWorkbook?(listener: () => void): () => void;
  /** Says which formulas stay `#NAME?` and would be entered again; only where such formulas can be. */
  planRepair?(): Promise<RepairPlan>;
  /** Enters them again, once the person agrees to the plan. */
  repair?(agreed: RepairPlan): Promise<RepairOutcome>;
  /** Gives the whole workbook as a file, as it now stands; only where the pane has no other way to a copy. */
  workbookBytes?(): Promise<WorkbookBytes>;
  /** Opens a file as a new workbook beside the one at hand. */
  openWorkbook?(bytes: Uint8Array): Promise<void>;
  /** Sets the sheet in front up for printing, and returns its name. */
  setUpPrint?(): Promise<string>;
}
