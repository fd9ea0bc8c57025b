import type { UnitSystemName } from "../core/index.js";
import { jobCell, plainFormulasOf } from "../workbook/index.js";
import {
  type OutdatedCell,
  openWorkbook,
  type Paper,
  paperEdits,
  parseAddress,
  patchWorkbook,
  type Workbook,
} from "../xlsx/index.js";
import { calculateXlsx } from "./calculate-xlsx.js";

/** How a new workbook is wanted. */
export interface WantedWorkbook {
  readonly units: UnitSystemName;
  readonly paper: Paper;
  /** "functions": with VANE functions, for Excel with the add-in; "plain": the same in plain formulas, for everywhere. */
  readonly formulas: "functions" | "plain";
  /** Formulas of the template that have no results yet, as where it was given more rows. */
  readonly outdated?: readonly OutdatedCell[];
}

/** The paper of a place that measures in these units, where nobody asks for another. */
export function usualPaper(units: UnitSystemName): Paper {
  return units === "si" ? "a4" : "letter";
}

/**
 * Makes a new workbook of a template: its units in the one cell that keeps them, the results that read it up to date,
 * its formulas as wanted, and every sheet set up for one paper.
 *
 * @param template - The template as opened
 * @returns The new file
 */
export function startWorkbook(
  template: Workbook,
  { units, paper, formulas, outdated = [] }: WantedWorkbook,
): Uint8Array {
  const reopened = (bytes: Uint8Array) => openWorkbook(bytes, template.fileName, template.archive.codec);
  const onPaper = reopened(patchWorkbook(template, paperEdits(template, paper)));
  const inUnits = reopened(withUnits(onPaper, units, outdated));
  return formulas === "plain" ? patchWorkbook(inUnits, plainFormulasOf(inUnits).edits) : inUnits.archive.bytes;
}

function withUnits(template: Workbook, units: UnitSystemName, outdated: readonly OutdatedCell[]): Uint8Array {
  const [sheet = "", address = ""] = jobCell("units").split("!");
  const bytes = patchWorkbook(template, [{ kind: "value", sheet, address, value: units }]);
  const isAsBefore = bytes === template.archive.bytes;
  if (isAsBefore && outdated.length === 0) return bytes;
  const changed = openWorkbook(bytes, template.fileName, template.archive.codec);
  const place = isAsBefore ? undefined : parseAddress(address);
  const cells = place === undefined ? outdated : [...outdated, { sheet, ...place }];
  return patchWorkbook(changed, calculateXlsx(changed, cells).edits);
}
