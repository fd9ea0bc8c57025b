import {
  formulaRuns,
  type RepairOutcome,
  type RepairPlan,
  repairPlan,
  type SheetRepair,
  type ShownSheet,
  type StuckFormula,
  type UnrepairedSheet,
} from "../../workbook/index.js";
import { formatAddress } from "../../xlsx/index.js";
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

/** A formula that Excel did not take, and its reason. */
interface RefusedFormula {
  readonly formula: StuckFormula;
  readonly reason: unknown;
}

/** Refusals after which the rest is given up: an Excel that takes nothing is not asked for every cell. */
const MOST_REFUSALS = 200;

/** Enters formulas of a sheet; where Excel refuses, in halves, so that only the formulas that it refuses are left. */
async function enterApart(
  context: Excel.RequestContext,
  sheet: Excel.Worksheet,
  formulas: readonly StuckFormula[],
  refusals = { count: 0 },
): Promise<readonly RefusedFormula[]> {
  try {
    for (const run of formulaRuns(formulas)) sheet.getRange(run.range).formulas = run.formulas.map((row) => [...row]);
    await context.sync();
    return [];
  } catch (reason) {
    if (isRefusedForEdit(reason)) throw reason;
    refusals.count += 1;
    const isGivenUp = formulas.length === 1 || refusals.count > MOST_REFUSALS;
    if (isGivenUp) return formulas.map((formula) => ({ formula, reason }));
    const half = Math.ceil(formulas.length / 2);
    const first = await enterApart(context, sheet, formulas.slice(0, half), refusals);
    return [...first, ...(await enterApart(context, sheet, formulas.slice(half), refusals))];
  }
}

/** So many cells are named; a count says how many more there are. */
const MOST_NAMED = 3;

function refusal(name: string, refused: readonly RefusedFormula[]): UnrepairedSheet | null {
  const [first] = refused;
  if (first === undefined) return null;
  const cells = refused.map(({ formula: { row, column } }) => formatAddress(row, column));
  const more = cells.length > MOST_NAMED ? ` and ${cells.length - MOST_NAMED} more` : "";
  const help = `Sheet “${name}”: ${cells.slice(0, MOST_NAMED).join(", ")}${more} not entered again.`;
  return { sheet: name, count: refused.length, message: asHostError(help, first.reason).message };
}

/** Only what is said about protection, without what Excel adds to it for its own use. */
export function sameOptions(protection: Excel.WorksheetProtection): Excel.WorksheetProtectionOptions {
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
    const message = `${help} (${asHostError("", thrown).message.trim()})`;
    return { sheet: name, count: repair.formulas.length, message };
  }
  let refused: readonly RefusedFormula[];
  // From here on the sheet is open: an edit that begins meanwhile is waited for, so that it does not stay open.
  try {
    refused = await afterCellEdit(() => enterApart(context, sheet, repair.formulas));
  } catch (reason) {
    refused = repair.formulas.map((formula) => ({ formula, reason }));
  }
  await afterCellEdit(async () => {
    sheet.protection.protect(options);
    await context.sync();
  });
  return refusal(name, refused);
}

async function repairOpen(
  context: Excel.RequestContext,
  repairs: readonly SheetRepair[],
): Promise<readonly UnrepairedSheet[]> {
  const failed: UnrepairedSheet[] = [];
  for (const { sheet, formulas } of repairs) {
    const refused = await enterApart(context, context.workbook.worksheets.getItem(sheet), formulas);
    const one = refusal(sheet, refused);
    if (one !== null) failed.push(one);
  }
  return failed;
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
  const total = sheets.reduce((sum, { formulas }) => sum + formulas.length, 0);
  return { repaired: total - unrepaired.reduce((sum, { count }) => sum + count, 0), unrepaired };
}
