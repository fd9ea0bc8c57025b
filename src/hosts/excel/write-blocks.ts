import { type BlockAddress, type BlockEdit, HostError } from "../../workbook/index.js";
import { placeIn, rangeOf } from "./addresses.js";
import { isRefusedForEdit } from "./after-cell-edit.js";
import { shownFormula, typedCell, typedText } from "./cell-contents.js";
import { explainMissing } from "./read-blocks.js";
import { asHostError, runExcel } from "./run-excel.js";

const FAILURE = "Nothing was written.";

const LOADED = "formulas,values,format/protection/locked";

/** Excel's limits on what one cell holds. */
const LONGEST_TEXT = 32_767;
const LONGEST_FORMULA = 8_192;

function isFormula(cell: unknown): boolean {
  return typeof cell === "string" && cell.startsWith("=");
}

function knowsSpills(): boolean {
  return Office.context.requirements.isSetSupported("ExcelApi", "1.12");
}

/** A block as it stands before the write. */
interface Target {
  readonly edit: BlockEdit;
  readonly range: Excel.Range;
  readonly protection: Excel.WorksheetProtection;
}

function requireShape({ address, cells }: BlockEdit): void {
  const { firstRow, lastRow, firstColumn, lastColumn } = rangeOf(address);
  const rows = lastRow - firstRow + 1;
  const columns = lastColumn - firstColumn + 1;
  if (cells.length === rows && cells.every((row) => row.length === columns)) return;
  throw new HostError(
    `${FAILURE} ${address.sheet}!${address.range} has ${rows} rows and ${columns} columns, and other cells were given for it.`,
  );
}

function requireHoldable({ address, cells }: BlockEdit): void {
  cells.forEach((row, rowIndex) => {
    row.forEach((cell, columnIndex) => {
      const place = () => placeIn(address, rowIndex, columnIndex);
      if (typeof cell === "number" && !Number.isFinite(cell)) {
        throw new HostError(`${FAILURE} The value for ${place()} is not a finite number.`);
      }
      if (typeof cell !== "string") return;
      if (cell.length > (isFormula(cell) ? LONGEST_FORMULA : LONGEST_TEXT)) {
        throw new HostError(`${FAILURE} The text for ${place()} is longer than a cell holds.`);
      }
    });
  });
}

function requireUnlocked({ edit: { address }, range, protection }: Target): void {
  if (!protection.protected || range.format.protection.locked === false) return;
  throw new HostError(
    `${FAILURE} Sheet “${address.sheet}” is protected and ${address.range} is locked, wholly or in part. Use its input cells, or unprotect the sheet on the Review tab.`,
  );
}

function requireNoFormulaLost({ edit: { address, cells }, range }: Target): void {
  range.formulas.forEach((row, rowIndex) => {
    row.forEach((formula: unknown, columnIndex) => {
      const shown = shownFormula(formula, range.values[rowIndex]?.[columnIndex]);
      if (shown === null || isFormula(cells[rowIndex]?.[columnIndex])) return;
      throw new HostError(`${FAILURE} ${placeIn(address, rowIndex, columnIndex)} holds a formula. Choose input cells.`);
    });
  });
}

/** A formula that fills several cells shows #SPILL! once one of them is written over. */
function requireNoSpill({ edit: { address, cells }, range }: Target): void {
  if (!knowsSpills() || range.hasSpill === false || cells.flat().every(isFormula)) return;
  throw new HostError(
    `${FAILURE} A formula fills cells of ${address.sheet}!${address.range} with its result. Choose cells beside it.`,
  );
}

/** Returns what to write so that a block stands as it did: text that looks like a number stays text. */
function asItStood({ range }: Target): unknown[][] {
  return range.formulas.map((row, rowIndex) =>
    row.map((formula: unknown, columnIndex) => {
      const value: unknown = range.values[rowIndex]?.[columnIndex];
      return shownFormula(formula, value) === null && typeof value === "string" ? typedText(value) : formula;
    }),
  );
}

async function loadTargets(context: Excel.RequestContext, edits: readonly BlockEdit[]): Promise<readonly Target[]> {
  const targets = edits.map((edit) => {
    const sheet = context.workbook.worksheets.getItem(edit.address.sheet);
    const range = sheet.getRange(edit.address.range);
    range.load(knowsSpills() ? `${LOADED},hasSpill` : LOADED);
    sheet.protection.load("protected");
    return { edit, range, protection: sheet.protection };
  });
  const asked: readonly BlockAddress[] = edits.map(({ address }) => address);
  try {
    await context.sync();
  } catch (thrown) {
    throw await explainMissing(context, asked, FAILURE, thrown);
  }
  return targets;
}

/** What a block held before the write, and what to write so that it holds it again. */
interface Before {
  readonly range: Excel.Range;
  readonly formulas: unknown[][];
  readonly typed: unknown[][];
}

/** Whether the blocks hold what they held before the write; an Excel that cannot say so counts as no. */
async function standAsBefore(context: Excel.RequestContext, targets: readonly Before[]): Promise<boolean> {
  try {
    for (const { range } of targets) range.load("formulas");
    await context.sync();
    return targets.every(({ range, formulas }) => JSON.stringify(range.formulas) === JSON.stringify(formulas));
  } catch {
    return false;
  }
}

/** Excel stops at the first action that fails and keeps those before it: they are taken back here. */
async function takeBack(
  context: Excel.RequestContext,
  targets: readonly Before[],
  thrown: unknown,
): Promise<HostError> {
  try {
    for (const { range, typed } of targets) range.formulas = typed;
    await context.sync();
    return asHostError(FAILURE, thrown);
  } catch (cause) {
    // A workbook that takes nothing at all, as one opened for reading, was not changed either.
    if (await standAsBefore(context, targets)) return asHostError(FAILURE, thrown);
    return new HostError("Only a part was written, and taking it back failed too. Undo it in Excel with Ctrl+Z.", {
      cause,
    });
  }
}

/** Writes blocks in one batch, whole or not at all; never over a formula unless the edit is a formula. */
export async function writeBlocks(edits: readonly BlockEdit[]): Promise<void> {
  if (edits.length === 0) return;
  for (const edit of edits) {
    requireShape(edit);
    requireHoldable(edit);
  }
  await runExcel(FAILURE, async (context) => {
    const targets = await loadTargets(context, edits);
    for (const target of targets) {
      requireUnlocked(target);
      requireNoFormulaLost(target);
      requireNoSpill(target);
    }
    const before = targets.map((target) => ({
      range: target.range,
      formulas: target.range.formulas,
      typed: asItStood(target),
    }));
    context.application.suspendApiCalculationUntilNextSync();
    for (const { edit, range } of targets) range.formulas = edit.cells.map((row) => row.map(typedCell));
    try {
      await context.sync();
    } catch (thrown) {
      // Nothing of it is done then, and all of it runs again after the edit.
      if (isRefusedForEdit(thrown)) throw thrown;
      throw await takeBack(context, before, thrown);
    }
  });
}
