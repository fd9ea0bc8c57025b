import type { ContentTypes } from "./package/content-types.js";
import type { Relationship } from "./package/relationships.js";
import type { CellStyle } from "./read/styles.js";
import type { ZipArchive } from "./zip/archive.js";

export type SheetVisibility = "visible" | "hidden" | "veryHidden";

/** One sheet as the workbook lists it. Only a worksheet has cells. */
export interface SheetEntry {
  readonly name: string;
  readonly visibility: SheetVisibility;
  readonly kind: "worksheet" | "chartsheet" | "dialogsheet" | "macrosheet";
  readonly partName: string;
}

/** A defined name; `sheet` is the name of the sheet in which alone it is known, if it is not known everywhere. */
export interface DefinedName {
  readonly name: string;
  readonly sheet: string | undefined;
  /** What it refers to, as stored, without the equals sign. */
  readonly refersTo: string;
  readonly isHidden: boolean;
}

/** A workbook file that has been opened. Sheets are read on demand by `readSheet`. */
export interface Workbook {
  readonly fileName: string;
  readonly archive: ZipArchive;
  readonly contentTypes: ContentTypes;
  /** Name of the part that lists the sheets. */
  readonly workbookPart: string;
  readonly relationships: readonly Relationship[];
  readonly sheets: readonly SheetEntry[];
  readonly names: readonly DefinedName[];
  readonly strings: readonly string[];
  readonly styles: readonly CellStyle[];
  /** Whether day 1 is 2 January 1904 instead of 1 January 1900. */
  readonly usesDate1904: boolean;
  readonly isStructureProtected: boolean;
  /** Name of the sheet that was in view when the file was saved. */
  readonly activeSheet: string | undefined;
  readonly hasMacros: boolean;
  readonly isSigned: boolean;
}
