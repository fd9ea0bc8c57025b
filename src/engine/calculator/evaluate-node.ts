import { DEFAULT_LOCALE, registries } from "@odoo/o-spreadsheet";
import { cellCount, cellsMeant, type Reference, readReference, WORKBOOK_LIMITS } from "../../xlsx/index.js";
import type { EngineCell } from "../exchange.js";
import { LIBRARY_FAILED, quietly } from "../prepare-library.js";
import { BeyondLimitError } from "./bounded-functions.js";
import { CALCULATION_LIMITS } from "./calculation-limits.js";
import { blockKey, type FormulaNode, isLargeBlock, type PlacedBlock } from "./formula-node.js";
import { type EnginePosition, rowGetters } from "./row-getters.js";
import type { SheetCells } from "./sheet-cells.js";

interface PlacedCell {
  readonly row: number;
  readonly column: number;
  readonly cell: EngineCell;
}

/** What a formula gave for its own cell and those it fills, or why it could not be calculated here. */
type Outcome = { readonly cells: readonly PlacedCell[] } | { readonly reason: string };

export interface Evaluator {
  /** Where a formula's references and names point. */
  blocksOf(node: FormulaNode): readonly PlacedBlock[];
  /** Calculates a formula whose inputs, as `blocksOf` gave them, are all settled. */
  run(node: FormulaNode, inputs: readonly PlacedBlock[]): Outcome;
}

const NO_SUCH_SHEET: EngineCell = { value: "#REF!", message: "The sheet that the formula names is not there." };
const NO_SUCH_NAME: EngineCell = { value: "#NAME?", message: "The name in the formula is not defined." };

export function evaluator(
  sheets: readonly SheetCells[],
  sheetIndexes: ReadonlyMap<string, number>,
  names: ReadonlyMap<string, string>,
  functions: object,
  isSubtotal: (formula: number) => boolean,
): Evaluator {
  const namesOfSheet = sheets.map(
    ({ sheet }) =>
      new Map([...names, ...(sheet.names ?? [])].map(([name, refersTo]) => [name.toUpperCase(), refersTo])),
  );
  const namedReferences = new Map<string, Reference | undefined>();
  const keptBlocks = new Map<string, EngineCell[][]>();
  let keptCells = 0;
  let askedWorkbook = "";
  const context: Record<string, unknown> = Object.create(functions);
  Object.assign(context, {
    locale: DEFAULT_LOCALE,
    lookupCaches: { forwardSearch: new Map(), reverseSearch: new Map() },
    getFormulaResult: ({ sheetId, row, col }: EnginePosition) => sheets[Number(sheetId)]?.cellAt(row + 1, col + 1),
    getters: new Proxy(rowGetters(sheets, isSubtotal), {
      get(known, asked) {
        if (asked in known) return known[asked as keyof typeof known];
        askedWorkbook = String(asked);
        throw { value: "#N/A", message: "" };
      },
    }),
  });

  function place(reference: Reference, node: FormulaNode): PlacedBlock | undefined {
    const sheet = reference.sheet === null ? node.sheet : sheetIndexes.get(reference.sheet.toLowerCase());
    const cells = sheet === undefined ? undefined : sheets[sheet];
    if (sheet === undefined || cells === undefined) return undefined;
    return { sheet, block: cellsMeant(reference, node.row, node.column, cells.sheet) };
  }

  function cellOf(reference: Reference | undefined, node: FormulaNode): EngineCell {
    const placed = reference && place(reference, node);
    if (placed === undefined) return NO_SUCH_SHEET;
    const { firstRow: row, firstColumn: column } = placed.block;
    const cell = (sheets[placed.sheet] as SheetCells).cellAt(row, column);
    return node.prepared.needsPosition ? withPosition(cell, placed.sheet, row, column) : cell;
  }

  function blockOf(reference: Reference | undefined, node: FormulaNode): EngineCell[][] {
    const placed = reference && place(reference, node);
    if (placed === undefined) return [[NO_SUCH_SHEET]];
    const { firstRow, firstColumn, lastRow, lastColumn } = placed.block;
    const isLarge = isLargeBlock(placed.block);
    const key = isLarge ? `${blockKey(placed.sheet, placed.block)}:${node.prepared.needsPosition}` : "";
    const kept = isLarge ? keptBlocks.get(key) : undefined;
    if (kept !== undefined) return kept;
    const cells = sheets[placed.sheet] as SheetCells;
    const block: EngineCell[][] = [];
    for (let column = firstColumn; column <= lastColumn; column += 1) {
      const built: EngineCell[] = [];
      for (let row = firstRow; row <= lastRow; row += 1) {
        const cell = cells.cellAt(row, column);
        built.push(node.prepared.needsPosition ? withPosition(cell, placed.sheet, row, column) : cell);
      }
      block.push(built);
    }
    if (isLarge) keepBlock(key, block, cellCount(placed.block));
    return block;
  }

  /** Blocks are remembered as long as they do not add up to too much. */
  function keepBlock(key: string, block: EngineCell[][], count: number) {
    if (keptCells + count > CALCULATION_LIMITS.cells) {
      keptBlocks.clear();
      keptCells = 0;
    }
    keptBlocks.set(key, block);
    keptCells += count;
  }

  /** Where a defined name points; undefined where there is none, or where it stands for something else than cells. */
  function named(name: string, node: FormulaNode): Reference | undefined {
    const refersTo = namesOfSheet[node.sheet]?.get(name.toUpperCase());
    if (refersTo === undefined) return undefined;
    if (!namedReferences.has(refersTo)) namedReferences.set(refersTo, readReference(refersTo, 1, 1));
    return namedReferences.get(refersTo);
  }

  function isDefined(name: string, node: FormulaNode): boolean {
    return namesOfSheet[node.sheet]?.has(name.toUpperCase()) === true;
  }

  function nameOf(name: string, wantsBlock: boolean, node: FormulaNode): EngineCell | EngineCell[][] {
    const reference = named(name, node);
    if (reference === undefined) return NO_SUCH_NAME;
    return wantsBlock || reference.isRange ? blockOf(reference, node) : cellOf(reference, node);
  }

  function run(node: FormulaNode, inputs: readonly PlacedBlock[]): Outcome {
    const { references, symbols } = node.prepared;
    const formulaName = symbols.find((symbol) => isDefined(symbol, node) && named(symbol, node) === undefined);
    if (formulaName !== undefined) return { reason: `its name ${formulaName} stands for something else than cells` };
    const read = inputs.reduce((sum, { block }) => sum + cellCount(block), 0);
    if (read > CALCULATION_LIMITS.cells) return { reason: `it reads more than ${CALCULATION_LIMITS.cells} cells` };
    context["__originCellPosition"] = { sheetId: String(node.sheet), row: node.row - 1, col: node.column - 1 };
    askedWorkbook = "";
    let result: EngineCell | EngineCell[][];
    try {
      const calculate = () =>
        node.prepared.execute(
          (index) => cellOf(references[index], node),
          (index) => blockOf(references[index], node),
          (name, wantsBlock) => nameOf(name, wantsBlock, node),
          context,
        );
      result = quietly(calculate) as EngineCell | EngineCell[][];
    } catch (thrown) {
      if (thrown instanceof BeyondLimitError) return { reason: thrown.message };
      // The library throws, before it looks at any value, where a function is given what it can never take.
      if (!isErrorCell(thrown)) return { reason: `it cannot be calculated here (${String(thrown)})` };
      result = { value: thrown.value, message: thrown.message ?? "" };
    }
    const first = Array.isArray(result) ? result[0]?.[0] : result;
    if (first?.message?.startsWith(LIBRARY_FAILED)) {
      const fault = first.message.slice(LIBRARY_FAILED.length).trim();
      return { reason: `the spreadsheet engine cannot calculate it (${fault})` };
    }
    if (askedWorkbook !== "") return { reason: "it asks for more of the workbook than its cells" };
    return { cells: spread(result, node) };
  }

  return {
    run,
    blocksOf(node) {
      const byName = node.prepared.symbols.map((symbol) => named(symbol, node));
      return [...node.prepared.references, ...byName].flatMap((reference) => {
        const placed = reference && place(reference, node);
        return placed === undefined ? [] : [placed];
      });
    },
  };
}

function isErrorCell(thrown: unknown): thrown is EngineCell {
  const { value } = Object(thrown) as { readonly value?: unknown };
  return typeof value === "string" && registries.errorTypes.has(value);
}

function withPosition({ value, message }: EngineCell, sheet: number, row: number, column: number): EngineCell {
  const position = { sheetId: String(sheet), row: row - 1, col: column - 1 };
  return { value, ...(message === undefined ? {} : { message }), ...{ position } };
}

/** A blank result shows as 0, as every spreadsheet program has it; what no cell can hold is an error. */
function settled(cell: EngineCell | undefined): EngineCell {
  const value = cell?.value ?? 0;
  if (typeof value === "number" && !Number.isFinite(value)) {
    return { value: "#NUM!", message: "The result is too large for a cell." };
  }
  if (typeof value === "string" && value.length > WORKBOOK_LIMITS.textLength) {
    return {
      value: "#VALUE!",
      message: `A cell holds ${WORKBOOK_LIMITS.textLength} characters, and the result has more.`,
    };
  }
  return cell?.message === undefined ? { value } : { value, message: cell.message };
}

/** Lays a result over the cells that the formula fills: its own alone, or the block that the file keeps for it. */
function spread(
  result: EngineCell | EngineCell[][],
  { row, column, fills, isDynamic }: FormulaNode,
): readonly PlacedCell[] {
  const columns = Array.isArray(result) ? result : [[result]];
  if (fills === undefined) return [{ row, column, cell: settled(columns[0]?.[0]) }];
  const isSingle = columns.length === 1 && columns[0]?.length === 1;
  const beyond: EngineCell = isDynamic ? { value: "" } : { value: "#N/A", message: "The block ends before this cell." };
  const cells: PlacedCell[] = [];
  for (let down = fills.firstRow; down <= fills.lastRow; down += 1) {
    for (let across = fills.firstColumn; across <= fills.lastColumn; across += 1) {
      const cell = isSingle ? columns[0]?.[0] : columns[across - fills.firstColumn]?.[down - fills.firstRow];
      cells.push({
        row: down,
        column: across,
        cell: settled(cell ?? beyond),
      });
    }
  }
  return cells;
}
