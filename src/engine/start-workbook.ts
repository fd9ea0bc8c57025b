import type { UnitSystemName } from "../core/index.js";
import { jobCell } from "../workbook/index.js";
import { openWorkbook, type Paper, paperEdits, parseAddress, patchWorkbook, type Workbook } from "../xlsx/index.js";
import { calculateXlsx } from "./calculate-xlsx.js";

/** How a new workbook is wanted. */
export interface WantedWorkbook {
  readonly units: UnitSystemName;
  readonly paper: Paper;
}

/** The paper of a place that measures in these units, where nobody asks for another. */
export function usualPaper(units: UnitSystemName): Paper {
  return units === "si" ? "a4" : "letter";
}

/**
 * Makes a new workbook of a template: its units in the one cell that keeps them, the results that read it up to date,
 * and every sheet set up for one paper.
 *
 * @param template - The template as opened
 * @returns The new file
 */
export function startWorkbook(template: Workbook, { units, paper }: WantedWorkbook): Uint8Array {
  const [sheet = "", address = ""] = jobCell("units").split("!");
  const onPaper = openWorkbook(patchWorkbook(template, paperEdits(template, paper)), template.fileName);
  const bytes = patchWorkbook(onPaper, [{ kind: "value", sheet, address, value: units }]);
  if (bytes === onPaper.archive.bytes) return bytes;
  const changed = openWorkbook(bytes, template.fileName);
  const place = parseAddress(address);
  return patchWorkbook(changed, calculateXlsx(changed, place === undefined ? [] : [{ sheet, ...place }]).edits);
}
