import type { InteractiveHost, RepairOutcome, RepairPlan } from "../../workbook/index.js";
import { addRows } from "./add-rows.js";
import { addTemplate, type TemplateBytes } from "./add-template.js";
import { watchWaiting } from "./after-cell-edit.js";
import { keepColumns } from "./keep-columns.js";
import { definedNames, listLayouts, listSheets, listTables } from "./list-sheets.js";
import { openWorkbook } from "./open-workbook.js";
import { readBlocks } from "./read-blocks.js";
import { planRepair, repairSheets } from "./repair-formulas.js";
import { selectBlock, selectedBlock } from "./selection.js";
import { setUpPrint } from "./set-up-print.js";
import { loadWithWorkbook, showPane } from "./startup.js";
import { watchChanges } from "./watch-changes.js";
import { watchSelection } from "./watch-selection.js";
import { workbookBytes } from "./workbook-bytes.js";
import { workbookHabits } from "./workbook-habits.js";
import { keepIdentity, workbookIdentity } from "./workbook-identity.js";
import { writeBlocks } from "./write-blocks.js";

/** The port over Excel, and what only Excel needs: formulas that it read before the add-in was there. */
export interface ExcelHost extends InteractiveHost {
  readonly kind: "excel";
  /** Says which formulas stay `#NAME?` and would be entered again; changes nothing. */
  planRepair(): Promise<RepairPlan>;
  /** Enters them again, once the person agrees to the plan. */
  repair(agreed: RepairPlan): Promise<RepairOutcome>;
}

/**
 * Returns the port over the workbook that is open in Excel.
 *
 * @param templateBytes - Gives the bytes of a template's workbook
 */
export function excelHost(templateBytes: TemplateBytes): ExcelHost {
  return {
    kind: "excel",
    identity: workbookIdentity,
    keepIdentity,
    habits: workbookHabits,
    loadWithWorkbook,
    showPane,
    watchWaiting,
    sheets: listSheets,
    read: readBlocks,
    write: writeBlocks,
    names: definedNames,
    keepColumns,
    tables: listTables,
    layouts: listLayouts,
    addRows,
    addTemplate: (template, options = {}) => addTemplate(template, options, templateBytes),
    select: selectBlock,
    selection: selectedBlock,
    watch: watchChanges,
    watchSelection,
    planRepair: () => planRepair(),
    repair: repairSheets,
    workbookBytes,
    openWorkbook,
    setUpPrint,
  };
}
