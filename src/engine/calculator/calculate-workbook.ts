import { CellError } from "../../cells/index.js";
import { cellCount, relativeForm } from "../../xlsx/index.js";
import type { Range, Scalar } from "../formula/values.js";
import { CALCULATION_LIMITS } from "./calculation-limits.js";
import { cellSet } from "./cell-set.js";
import { blockKey, type FormulaNode, isLargeBlock, type PlacedBlock } from "./formula-node.js";
import { inputsOf } from "./inputs-of.js";
import { type Prepared, prepare } from "./prepare.js";
import { runFormula, UnsettledInput } from "./run-formula.js";
import { type SheetCells, sheetCells } from "./sheet-cells.js";
import type { CalculatedCell, Calculation, CellPlace, FormulaSource, KeptCell } from "./source.js";
import { workbookBook } from "./workbook-book.js";

const NEW = 0;
const OPEN = 1;
const DONE = 2;

/** What is known of a settled formula: calculated anew, and with another result than the stored one. */
const AFFECTED = 1;
const DIFFERENT = 2;
/** Something far behind it has changed, though what it reads came out the same: a what-if table tries other values. */
const STIRRED = 4;

const FILLS_TOO_MUCH = `it fills more cells than are calculated here, ${CALCULATION_LIMITS.filledCells} on a sheet`;
const GOES_ROUND = "it depends on itself";

/** So many formulas are settled between two reports of progress. */
const REPORT_EVERY = 1000;

/**
 * Calculates the formulas of a workbook that call a VANE function, those that depend on such a one or on a changed
 * cell, and those that have no stored value. Every other formula keeps the value that the file stores.
 *
 * A formula that cannot be calculated is listed with the reason. Where something that it reads has changed, its stored value
 * is known to be old: then nothing that depends on it is calculated from that value either, and all of these are listed as
 * outdated.
 *
 * @param source - The workbook
 * @param changed - Cells that are newer than the stored results: typed values, and formulas not calculated yet
 * @param report - Told now and then how many of how many formulas are settled
 */
export function calculateWorkbook(
  source: FormulaSource,
  changed: readonly CellPlace[] = [],
  report: (done: number, total: number) => void = () => undefined,
): Calculation {
  const nodes: FormulaNode[] = [];
  const sheets = source.sheets.map((sheet, index) =>
    sheetCells(sheet, index, (formula) => {
      const { fills, prepared } = nodes[formula] as FormulaNode;
      return { fills, isSubtotal: prepared.isSubtotal };
    }),
  );
  readNodes(source, sheets, nodes);
  const calculated: CalculatedCell[] = [];
  const kept: KeptCell[] = [];
  const keptRound: number[] = [];
  const state = new Uint8Array(nodes.length);
  const known = new Uint8Array(nodes.length);
  const isCircular = new Uint8Array(nodes.length);
  const settledBlocks = new Map<string, number>();
  const changedCells = source.sheets.map(({ name }) => cellSet(changed.filter((place) => isSheet(place.sheet, name))));
  let calculatedCount = 0;
  /** What the formula in hand learnt of blocks that it found while it was calculated. */
  let foundMarks = 0;
  const book = workbookBook(source, sheets, nodes.length, needCells);

  /** Calls back with each formula that a formula reads, and returns the marks of them all. */
  function lookAtInputs(inputs: readonly PlacedBlock[], visit: (formula: number) => void): number {
    let marks = 0;
    for (const { sheet, block } of inputs) {
      if (changedCells[sheet]?.hasAnyIn(block) === true) marks |= AFFECTED | DIFFERENT | STIRRED;
      const key = isLargeBlock(block) ? blockKey(sheet, block) : "";
      const settled = key === "" ? undefined : settledBlocks.get(key);
      if (settled !== undefined) {
        marks |= settled;
        continue;
      }
      let isSettled = true;
      let own = 0;
      (sheets[sheet] as SheetCells).eachFormulaIn(block, (formula) => {
        if (state[formula] !== DONE) isSettled = false;
        own |= known[formula] as number;
        visit(formula);
      });
      if (isSettled && key !== "") settledBlocks.set(key, own);
      marks |= own;
    }
    return marks;
  }

  function needCells(range: Range): void {
    const waiting: number[] = [];
    foundMarks |= lookAtInputs([{ sheet: range.grid.index, block: range }], (formula) => {
      if (state[formula] !== DONE) waiting.push(formula);
    });
    if (waiting.length > 0) throw new UnsettledInput(waiting);
  }

  function settle(start: number) {
    const stack = [start];
    const inputsOfOpen = new Map<number, readonly PlacedBlock[]>();
    while (stack.length > 0) {
      const index = stack.at(-1) as number;
      const node = nodes[index] as FormulaNode;
      if (state[index] === NEW) {
        state[index] = OPEN;
        const inputs = inputsOf(node, book);
        const height = stack.length;
        lookAtInputs(inputs, (input) => {
          if (state[input] === NEW) stack.push(input);
          else if (state[input] === OPEN) isCircular[index] = 1;
        });
        inputsOfOpen.set(index, inputs);
        if (stack.length > height) continue;
      }
      if (state[index] === DONE) stack.pop();
      else {
        const waiting = finish(index, node, inputsOfOpen.get(index) ?? []);
        if (waiting.length === 0) {
          stack.pop();
          inputsOfOpen.delete(index);
        } else
          for (const input of waiting) {
            if (state[input] === NEW) stack.push(input);
            else isCircular[index] = 1;
          }
      }
    }
  }

  /** Settles a formula whose inputs are settled; returns those that it turned out to need besides. */
  function finish(index: number, node: FormulaNode, inputs: readonly PlacedBlock[]): readonly number[] {
    const cells = sheets[node.sheet] as SheetCells;
    const own = { firstRow: node.row, firstColumn: node.column, lastRow: node.row, lastColumn: node.column };
    const isChanged = changedCells[node.sheet]?.hasAnyIn(own) === true;
    const isStored = !isChanged && cells.sheet.valueAt(node.row, node.column) !== null;
    const marks = lookAtInputs(inputs, () => undefined);
    const { callsVane, makesReferences, fault } = node.prepared;
    const isWanted = callsVane || (marks & AFFECTED) !== 0 || !isStored;
    if (isCircular[index] === 1) return keep(index, node, GOES_ROUND, !isStored || (marks & DIFFERENT) !== 0);
    if (!isWanted && !makesReferences) return done(index);
    if (fault !== null)
      return isWanted ? keep(index, node, fault, !isStored || (marks & DIFFERENT) !== 0) : done(index);
    foundMarks = 0;
    const outcome = runFormula(node, cells, book);
    if ("waiting" in outcome) return outcome.waiting;
    const telling = node.prepared.compiled?.unknownCalls.includes("TABLE") === true ? DIFFERENT | STIRRED : DIFFERENT;
    const isOld = !isStored || ((marks | foundMarks) & telling) !== 0;
    if (!isWanted && (foundMarks & AFFECTED) === 0) return done(index);
    if ("reason" in outcome) return keep(index, node, outcome.reason, isOld || outcome.readsOutdated);
    calculatedCount += 1;
    let isDifferent = isChanged;
    for (const { row, column, value } of outcome.cells) {
      isDifferent ||= !isStoredValue(cells, row, column, value);
      cells.setResult(row, column, value);
      calculated.push({ sheet: cells.name, row, column, value: shownValue(value) });
    }
    known[index] = AFFECTED | (isDifferent ? DIFFERENT | STIRRED : (marks | foundMarks) & STIRRED);
    return done(index);
  }

  function done(index: number): readonly number[] {
    state[index] = DONE;
    return [];
  }

  function keep(index: number, node: FormulaNode, reason: string, isOutdated: boolean): readonly number[] {
    const { sheet, row, column, fills } = node;
    if (reason === GOES_ROUND) keptRound.push(kept.length);
    kept.push({ sheet: (sheets[sheet] as SheetCells).name, row, column, reason, isOutdated, fills });
    if (isOutdated || reason === GOES_ROUND) {
      known[index] = isOutdated ? AFFECTED | DIFFERENT | STIRRED : AFFECTED;
      const block = fills ?? { firstRow: row, firstColumn: column, lastRow: row, lastColumn: column };
      for (let down = block.firstRow; down <= block.lastRow; down += 1) {
        for (let across = block.firstColumn; across <= block.lastColumn; across += 1)
          (sheets[sheet] as SheetCells).setOutdated(down, across);
      }
    }
    return done(index);
  }

  /** In a circle the formula that closes it is settled before the others: what became of those is old for it too. */
  function outdateCircles() {
    for (const place of keptRound) {
      const one = kept[place] as KeptCell;
      const cells = sheets.find(({ name }) => name === one.sheet);
      const index = cells?.formulaIndexAt(one.row, one.column);
      if (one.isOutdated || index === undefined) continue;
      const marks = lookAtInputs(inputsOf(nodes[index] as FormulaNode, book), () => undefined);
      if ((marks & DIFFERENT) !== 0) kept[place] = { ...one, isOutdated: true };
    }
  }

  for (let index = 0; index < nodes.length; index += 1) {
    if (index % REPORT_EVERY === 0) report(index, nodes.length);
    if (state[index] === NEW) settle(index);
  }
  outdateCircles();
  return { calculatedCount, calculated, kept };
}

function isStoredValue({ sheet }: SheetCells, row: number, column: number, value: Scalar): boolean {
  const stored = sheet.valueAt(row, column);
  if (value instanceof CellError) return typeof stored === "object" && stored !== null && stored.error === value.code;
  return stored === (value ?? 0);
}

function isSheet(one: string, other: string): boolean {
  return one.toLowerCase() === other.toLowerCase();
}

function readNodes(source: FormulaSource, sheets: readonly SheetCells[], nodes: FormulaNode[]): void {
  const preparedForms = new Map<string, Prepared>();
  source.sheets.forEach((sheet, sheetIndex) => {
    let filledCells = 0;
    for (const { row, column, text, fills, isDynamic } of sheet.formulas) {
      const isArray = fills !== undefined || isDynamic;
      const form = (isArray ? "{" : "") + relativeForm(text, row, column);
      let prepared = preparedForms.get(form);
      if (prepared === undefined) {
        prepared = prepare(text, row, column, isArray);
        preparedForms.set(form, prepared);
      }
      const node = { sheet: sheetIndex, row, column, isDynamic };
      filledCells += fills === undefined ? 0 : cellCount(fills);
      if (fills !== undefined && filledCells > CALCULATION_LIMITS.filledCells) {
        filledCells -= cellCount(fills);
        nodes.push({ ...node, prepared: { ...prepared, fault: FILLS_TOO_MUCH }, fills: undefined });
      } else nodes.push({ ...node, prepared, fills });
      const own = { firstRow: row, firstColumn: column, lastRow: row, lastColumn: column };
      sheets[sheetIndex]?.addFormula(nodes.length - 1, nodes.at(-1)?.fills ?? own);
    }
  });
}

function shownValue(value: Scalar): CalculatedCell["value"] {
  if (value instanceof CellError) return { error: value.code, message: value.message };
  return value ?? 0;
}
