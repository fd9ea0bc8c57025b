import {
  formulaRuns,
  type RepairOutcome,
  type RepairPlan,
  repairPlan,
  type SheetRepair,
  type ShownSheet,
  type UnrepairedSheet,
} from "../../workbook/index.js";
import { rangeOf, splitAddress } from "./addresses.js";
import { afterCellEdit, isRefusedForEdit } from "./after-cell-edit.js";
import { shownFormula } from "./cell-contents.js";
import { asHostError, runExcel } from "./run-excel.js";

const READ_FAILURE = "The formulas could not be looked through.";

function shownSheet(sheet: Excel.Worksheet, used: Excel.Range): ShownSheet {
  const { firstRow, firstColumn } = rangeOf(splitAddress(used.address));
  return {
    sheet: sheet.name,
    isProtected: sheet.protection.protected,
    firstRow,
    firstColumn,
    formulas: used.formulas.map((cells, row) =>
      cells.map((formula: unknown, column) => shownFormula(formula, used.values[row]?.[column])),
    ),
    errors: used.values.map((cells, row) =>
      cells.map((value: unknown, column) =>
        String(used.valueTypes[row]?.[column]) === "Error" ? String(value) : null,
      ),
    ),
  };
}

/**
 * Finds the formulas that stay `#NAME?` because Excel read them before the add-in was there. Changes nothing: the
 * person agrees to the plan first.
 *
 * @param only - The sheets to look through; all of them where it is left out
 */
export async function planRepair(only?: readonly string[]): Promise<RepairPlan> {
  return runExcel(READ_FAILURE, async (context) => {
    const { worksheets } = context.workbook;
    worksheets.load("items/name,items/protection/protected");
    await context.sync();
    const sheets = worksheets.items.filter(({ name }) => only === undefined || only.includes(name));
    const used = sheets.map((sheet) => {
      const range = sheet.getUsedRangeOrNullObject(true);
      range.load("address,formulas,values,valueTypes");
      return range;
    });
    await context.sync();
    return repairPlan(
      sheets.flatMap((sheet, index) => {
        const range = used[index] as Excel.Range;
        return range.isNullObject ? [] : [shownSheet(sheet, range)];
      }),
    );
  });
}

function enter(sheet: Excel.Worksheet, { formulas }: SheetRepair): void {
  for (const run of formulaRuns(formulas)) sheet.getRange(run.range).formulas = run.formulas.map((row) => [...row]);
}

/** Only what is said about protection, without what Excel adds to it for its own use. */
function sameOptions(protection: Excel.WorksheetProtection): Excel.WorksheetProtectionOptions {
  return Object.fromEntries(
    Object.entries(protection.options).filter(
      ([, option]) => typeof option === "boolean" || typeof option === "string",
    ),
  );
}

/** Lifts a protection without a password, enters the formulas and protects as before, also after a failure. */
async function repairProtected(context: Excel.RequestContext, repair: SheetRepair): Promise<UnrepairedSheet | null> {
  const { sheet: name } = repair;
  const sheet = context.workbook.worksheets.getItem(name);
  sheet.protection.load("protected,options");
  await context.sync();
  const options = sameOptions(sheet.protection);
  try {
    sheet.protection.unprotect();
    await context.sync();
  } catch (thrown) {
    if (isRefusedForEdit(thrown)) throw thrown;
    const help = `Sheet “${name}” is protected with a password. Unprotect it on the Review tab, then repair again.`;
    return { sheet: name, message: `${help} (${asHostError("", thrown).message.trim()})` };
  }
  let failure: unknown = null;
  // From here on the sheet is open: an edit that begins meanwhile is waited for, so that it does not stay open.
  try {
    await afterCellEdit(async () => {
      enter(sheet, repair);
      await context.sync();
    });
  } catch (thrown) {
    failure = thrown;
  }
  await afterCellEdit(async () => {
    sheet.protection.protect(options);
    await context.sync();
  });
  if (failure === null) return null;
  return { sheet: name, message: asHostError(`Sheet “${name}” was not repaired.`, failure).message };
}

async function repairAlone(context: Excel.RequestContext, repair: SheetRepair): Promise<UnrepairedSheet | null> {
  try {
    enter(context.workbook.worksheets.getItem(repair.sheet), repair);
    await context.sync();
    return null;
  } catch (thrown) {
    if (isRefusedForEdit(thrown)) throw thrown;
    return { sheet: repair.sheet, message: asHostError(`Sheet “${repair.sheet}” was not repaired.`, thrown).message };
  }
}

/** Enters the formulas of all sheets at once; where Excel refuses, sheet by sheet, so that only those are named. */
async function repairOpen(
  context: Excel.RequestContext,
  repairs: readonly SheetRepair[],
): Promise<readonly UnrepairedSheet[]> {
  if (repairs.length === 0) return [];
  try {
    for (const repair of repairs) enter(context.workbook.worksheets.getItem(repair.sheet), repair);
    await context.sync();
    return [];
  } catch (thrown) {
    if (isRefusedForEdit(thrown)) throw thrown;
    const failed: UnrepairedSheet[] = [];
    for (const repair of repairs) {
      const one = await repairAlone(context, repair);
      if (one !== null) failed.push(one);
    }
    return failed;
  }
}

/**
 * Enters the formulas of a plan again, as the person agreed.
 *
 * What changed since the plan was made is looked at afresh: only formulas that are still stuck are entered, and only
 * on the sheets of the plan.
 */
export async function repairSheets(agreed: RepairPlan): Promise<RepairOutcome> {
  const { sheets } = await planRepair(agreed.sheets.map(({ sheet }) => sheet));
  const unrepaired = await runExcel("The formulas were not entered again.", async (context) => {
    const failed = [
      ...(await repairOpen(
        context,
        sheets.filter(({ isProtected }) => !isProtected),
      )),
    ];
    for (const repair of sheets.filter(({ isProtected }) => isProtected)) {
      const one = await repairProtected(context, repair);
      if (one !== null) failed.push(one);
    }
    return failed;
  });
  const failedSheets = new Set(unrepaired.map(({ sheet }) => sheet));
  const done = sheets.filter(({ sheet }) => !failedSheets.has(sheet));
  return { repaired: done.reduce((sum, { formulas }) => sum + formulas.length, 0), unrepaired };
}
