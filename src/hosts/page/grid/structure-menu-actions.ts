import type { Model } from "@odoo/o-spreadsheet";

export type SortDirection = "ascending" | "descending";

/** What a person does to see some rows of a table alone. */
export interface FilterActions {
  /** Shows or hides the buttons in all headings of the table; those of columns by which it is filtered stay. */
  readonly toggleFilter: () => void;
  /** Asks which rows are to be seen, by the column of a cell; of the selected one where none is named. */
  readonly filterBy: (place?: { readonly col: number; readonly row: number }) => void;
  /** Shows every row of the sheet that a filter hides. */
  readonly showAllRows: () => void;
}

/** What a person does with rows and sheets; the file's own bytes take it in, so that nothing of it is lost. */
export interface StructureActions extends FilterActions {
  readonly insertRows: (where: "above" | "below") => void;
  readonly deleteRows: () => void;
  readonly sortRows: (direction: SortDirection) => void;
  /** Puts an empty sheet behind the one in view. */
  readonly addSheet: () => void;
  readonly renameSheet: (sheetId: string) => void;
  readonly copySheet: (sheetId: string) => void;
  readonly moveSheet: (sheetId: string, by: 1 | -1) => void;
  readonly deleteSheet: (sheetId: string) => void;
  /** Takes the last step back, one of the grid's own or a change of rows or sheets. */
  readonly undo: () => void;
  /** Whether there is such a step, in the grid that shows a workbook or before it began. */
  readonly canUndo: (env: { readonly model: Model }) => boolean;
}
