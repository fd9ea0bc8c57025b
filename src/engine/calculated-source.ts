import { type CalculatedResults, fileSource, type WorkbookSource } from "../workbook/index.js";
import type { Workbook } from "../xlsx/index.js";
import { calculateXlsx } from "./calculate-xlsx.js";

/** Results of a workbook's formulas that are not stored, or stored as something else, by `Sheet!B7`. */
export function calculatedResults(workbook: Workbook): CalculatedResults {
  return new Map(calculateXlsx(workbook).edits.map(({ sheet, address, value }) => [`${sheet}!${address}`, value]));
}

/** Shows a workbook file with its formulas calculated anew, whatever it stores of them. */
export const calculatedSource = (workbook: Workbook): WorkbookSource =>
  fileSource(workbook, calculatedResults(workbook));
