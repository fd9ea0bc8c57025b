/** What a person does with rows and sheets; the file's own bytes take it in, so that nothing of it is lost. */
export interface StructureActions {
  readonly insertRows: (where: "above" | "below") => void;
  readonly deleteRows: () => void;
  readonly sortRows: (direction: "ascending" | "descending") => void;
  /** Shows or hides the buttons that choose which rows are in view. */
  readonly toggleFilter: () => void;
  readonly renameSheet: (sheetId: string) => void;
  readonly copySheet: (sheetId: string) => void;
  readonly moveSheet: (sheetId: string, by: 1 | -1) => void;
  readonly deleteSheet: (sheetId: string) => void;
}
