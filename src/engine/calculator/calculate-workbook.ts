import { registries } from "@odoo/o-spreadsheet";
import { cellCount, relativeForm } from "../../xlsx/index.js";
import type { EngineCell } from "../exchange.js";
import { prepareLibrary } from "../prepare-library.js";
import { registerFunctions } from "../register-functions.js";
import { boundedFunctions } from "./bounded-functions.js";
import { CALCULATION_LIMITS } from "./calculation-limits.js";
import { cellSet } from "./cell-set.js";
import { type Prepared, prepare } from "./compile.js";
import { evaluator } from "./evaluate-node.js";
import { blockKey, type FormulaNode, isLargeBlock, type PlacedBlock } from "./formula-node.js";
import { type SheetCells, sheetCells } from "./sheet-cells.js";
import type { CalculatedCell, Calculation, CellPlace, FormulaSource, KeptCell } from "./source.js";

const NEW = 0;
const OPEN = 1;
const DONE = 2;

const FILLS_TOO_MUCH = `it fills more cells than are calculated here, ${CALCULATION_LIMITS.filledCells} on a sheet`;

/** So many formulas are settled between two reports of progress. */
const REPORT_EVERY = 1000;

/**
 * Calculates the formulas of a workbook that call a VANE function, those that depend on such a one or on a changed
 * cell, and those that have no stored value. Every other formula keeps the value that the file stores.
 *
 * Formulas that read the same from their own cells are read and compiled once; the functions are the engine's own, so
 * that a formula gives here what it gives in the page.
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
  prepareLibrary();
  registerFunctions();
  const sheets = source.sheets.map(sheetCells);
  const nodes = readNodes(source, sheets);
  const sheetIndexes = new Map(source.sheets.map((sheet, index) => [sheet.name.toLowerCase(), index]));
  const calculated: CalculatedCell[] = [];
  const kept: KeptCell[] = [];
  const state = new Uint8Array(nodes.length);
  const isAffected = new Uint8Array(nodes.length);
  const isCircular = new Uint8Array(nodes.length);
  const settledBlocks = new Map<string, boolean>();
  const changedCells = source.sheets.map(({ name }) => cellSet(changed.filter((place) => isSheet(place.sheet, name))));
  let calculatedCount = 0;
  const isSubtotal = (formula: number) => nodes[formula]?.prepared.isSubtotal === true;
  const functions = boundedFunctions(registries.functionRegistry);
  const evaluate = evaluator(sheets, sheetIndexes, source.names, functions, isSubtotal);

  /** Calls back with each formula that a formula reads, and says whether it reads a changed cell. */
  function lookAtInputs(inputs: readonly PlacedBlock[], visit: (formula: number) => void): boolean {
    let readsAffected = false;
    for (const { sheet, block } of inputs) {
      const cells = sheets[sheet] as SheetCells;
      readsAffected ||= changedCells[sheet]?.hasAnyIn(block) === true;
      const key = isLargeBlock(block) ? blockKey(sheet, block) : "";
      const settled = key === "" ? undefined : settledBlocks.get(key);
      if (settled !== undefined) {
        readsAffected ||= settled;
        continue;
      }
      let isSettled = true;
      let hasAffected = false;
      cells.eachFormulaIn(block, (formula) => {
        if (state[formula] !== DONE) isSettled = false;
        if (isAffected[formula] === 1) hasAffected = true;
        visit(formula);
      });
      if (isSettled && key !== "") settledBlocks.set(key, hasAffected);
      readsAffected ||= hasAffected;
    }
    return readsAffected;
  }

  function settle(start: number) {
    const stack = [start];
    const inputsOfOpen = new Map<number, readonly PlacedBlock[]>();
    while (stack.length > 0) {
      const index = stack.at(-1) as number;
      const node = nodes[index] as FormulaNode;
      if (state[index] === NEW) {
        state[index] = OPEN;
        const inputs = evaluate.blocksOf(node);
        inputsOfOpen.set(index, inputs);
        lookAtInputs(inputs, (input) => {
          if (state[input] === NEW) stack.push(input);
          else if (state[input] === OPEN) isCircular[index] = 1;
        });
      } else {
        stack.pop();
        if (state[index] !== OPEN) continue;
        finish(index, node, inputsOfOpen.get(index) ?? []);
        inputsOfOpen.delete(index);
      }
    }
  }

  function finish(index: number, node: FormulaNode, inputs: readonly PlacedBlock[]) {
    state[index] = DONE;
    const cells = sheets[node.sheet] as SheetCells;
    const { sheet } = cells;
    const place = { sheet: sheet.name, row: node.row, column: node.column };
    const readsAffected = lookAtInputs(inputs, () => undefined);
    const own = { firstRow: node.row, firstColumn: node.column, lastRow: node.row, lastColumn: node.column };
    const isStored = sheet.valueAt(node.row, node.column) !== null && changedCells[node.sheet]?.hasAnyIn(own) !== true;
    const { callsVane, readsAnywhere } = node.prepared;
    if (!callsVane && !readsAffected && !readsAnywhere && isStored) return;
    const fault = isCircular[index] === 1 ? "it depends on itself" : node.prepared.fault;
    if (fault !== null) {
      kept.push({ ...place, reason: fault });
      return;
    }
    const outcome = evaluate.run(node, inputs);
    if ("reason" in outcome) {
      kept.push({ ...place, reason: outcome.reason });
      return;
    }
    isAffected[index] = 1;
    calculatedCount += 1;
    for (const { row, column, cell } of outcome.cells) {
      cells.setResult(row, column, cell);
      calculated.push({ sheet: sheet.name, row, column, value: shownValue(cell) });
    }
  }

  for (let index = 0; index < nodes.length; index += 1) {
    if (index % REPORT_EVERY === 0) report(index, nodes.length);
    if (state[index] === NEW) settle(index);
  }
  return { calculatedCount, calculated, kept };
}

function isSheet(one: string, other: string): boolean {
  return one.toLowerCase() === other.toLowerCase();
}

function readNodes(source: FormulaSource, sheets: readonly SheetCells[]): readonly FormulaNode[] {
  const nodes: FormulaNode[] = [];
  const preparedForms = new Map<string, Prepared>();
  source.sheets.forEach((sheet, sheetIndex) => {
    let filledCells = 0;
    for (const { row, column, text, fills, isDynamic } of sheet.formulas) {
      const form = relativeForm(text, row, column);
      let prepared = preparedForms.get(form);
      if (prepared === undefined) {
        prepared = prepare(text, row, column);
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
  return nodes;
}

function shownValue({ value, message }: EngineCell): CalculatedCell["value"] {
  if (typeof value === "string" && registries.errorTypes.has(value)) return { error: value, message: message ?? "" };
  return value ?? 0;
}
