import { WORKBOOK_LIMITS } from "../limits.js";
import { placeOf, readPart } from "../package/read-part.js";
import type { WorkbookEdit } from "../patch/edits.js";
import { type PatchOptions, patchWorkbook } from "../patch/patch-workbook.js";
import { findRow } from "../read/cell-table.js";
import { openWorkbook } from "../read/open-workbook.js";
import { readSheet } from "../read/read-sheet.js";
import type { Sheet, Table } from "../sheet.js";
import type { Workbook } from "../workbook.js";
import { type Splice, spliceBytes } from "../xml/splice.js";
import { formulasAfter } from "./formulas-after.js";
import { newRows } from "./new-rows.js";
import {
  anchoredParts,
  drawnParts,
  namesAfter,
  notedParts,
  type PartContext,
  type PartRewrite,
  pivotParts,
  tableParts,
} from "./rewrite-parts.js";
import { restSplices } from "./rewrite-sheet-rest.js";
import { movedRow, type RowChange } from "./row-change.js";
import { formulaSplices, orderedRows, rowSplices, tagAt } from "./row-splices.js";
import {
  type OutdatedCell,
  type Restructured,
  refused,
  requireSimpleHistory,
  sheetOrder,
} from "./structure-context.js";

/** Functions whose result may hang on where cells stand, or that name cells by their text. */
const ASKS_FOR_PLACES = /\b(?:ROWS?|CELL|ADDRESS|INDIRECT|OFFSET|COUNTBLANK|FORMULATEXT)\(/i;

/** What a change of rows made of a workbook's parts. */
interface Change {
  readonly rewrites: readonly PartRewrite[];
  readonly outdated: readonly OutdatedCell[];
}

function metadataReader(sheet: Sheet, bytes: Uint8Array): (cellIndex: number) => string | undefined {
  return (cellIndex) => {
    const tag = tagAt(bytes, sheet.cells.starts[cellIndex] as number);
    return /\scm\s*=\s*["']([^"']*)["']/.exec(tag)?.[1];
  };
}

function outdatedOf(sheet: Sheet, change: RowChange, after: ReturnType<typeof formulasAfter>): readonly OutdatedCell[] {
  const isOwn = sheet.name === change.sheet;
  return sheet.cells.formulas.flatMap(({ row, column, text }, index) => {
    const moved = isOwn ? movedRow(change, row) : row;
    if (moved === undefined) return [];
    const isConcerned = after[index]?.isResized === true || ASKS_FOR_PLACES.test(after[index]?.text ?? text);
    return isConcerned ? [{ sheet: sheet.name, row: moved, column }] : [];
  });
}

function changedSheet(
  sheet: Sheet,
  context: PartContext,
  table: Table | undefined,
): { readonly content: Uint8Array | undefined; readonly outdated: readonly OutdatedCell[] } {
  const { workbook, change, between } = context;
  const bytes = readPart(workbook.archive, sheet.partName, WORKBOOK_LIMITS.partBytes);
  const isOwn = sheet.name === change.sheet;
  const where = (what: string) => `sheet “${sheet.name}”, ${what}`;
  const stuck = (what: string, formula: string): void => context.stuck(where(what), formula);
  const after = formulasAfter(sheet, change, between, stuck);
  const made = isOwn
    ? newRows(sheet, change, between, table, metadataReader(sheet, bytes))
    : { outdated: [], merged: [], cellsOf: () => [], cellXml: () => "" };
  const splices: Splice[] = [...formulaSplices(sheet, bytes, after, change)];
  const kept = isOwn ? splices.filter(({ start }) => !isInDeletedRow(sheet, change, start)) : splices;
  const { openEnd, closeStart } = sheet.layout.sheetData;
  const cells = openEnd < closeStart ? { start: openEnd, end: closeStart } : undefined;
  const rest = restSplices(
    bytes,
    placeOf(workbook.archive, sheet.partName),
    { sheet: sheet.name, change, between, stuck, mergedAgain: made.merged, prefix: sheet.layout.prefix },
    cells,
  );
  const isOrder = change.order !== undefined;
  const rows = isOwn && !isOrder ? rowSplices(sheet, bytes, change, made) : [];
  const all = [...(isOwn && isOrder ? orderedRows(sheet, bytes, change, kept) : kept), ...rows, ...rest];
  return {
    content: all.length === 0 ? undefined : spliceBytes(bytes, all),
    outdated: [...outdatedOf(sheet, change, after), ...made.outdated],
  };
}

function isInDeletedRow({ cells }: Sheet, { at, deleted }: RowChange, start: number): boolean {
  if (deleted === 0) return false;
  const first = findRow(cells, at);
  const last = findRow(cells, at + deleted);
  const [from, to] = [first < 0 ? ~first : first, last < 0 ? ~last : last];
  if (from >= to) return false;
  return start >= (cells.rowStarts[from] as number) && start < (cells.rowEnds[to - 1] as number);
}

function computed(workbook: Workbook, change: RowChange, table: Table | undefined): Change {
  const between = sheetOrder(workbook);
  const context: PartContext = {
    workbook,
    change,
    between,
    stuck(what, formula) {
      const problem = `reads “${formula.slice(0, 80)}”, which cannot follow rows of “${change.sheet}”`;
      const advice =
        change.order === undefined
          ? "Change that formula first: it goes through several sheets, or row by row along another list."
          : "Change that formula first: it reads some of the rows as a block, and sorting would mix them with others.";
      throw refused(workbook, what, problem, advice);
    },
  };
  const sheets = workbook.sheets
    .filter(({ kind }) => kind === "worksheet")
    .map(({ name }) => readSheet(workbook, name));
  const own = sheets.find(({ name }) => name === change.sheet) as Sheet;
  const outdated: OutdatedCell[] = [];
  const rewrites: PartRewrite[] = [];
  for (const sheet of sheets) {
    const changed = changedSheet(sheet, context, table);
    if (changed.content !== undefined) rewrites.push([sheet.partName, changed.content]);
    outdated.push(...changed.outdated);
  }
  const drawn = drawnParts(context);
  const anchored = anchoredParts(context, own, drawn);
  rewrites.push(
    ...drawn.filter(([partName]) => !anchored.some(([other]) => other === partName)),
    ...anchored,
    ...notedParts(context, own),
    ...tableParts(context, sheets, table),
    ...pivotParts(context, own),
    ...namesAfter(context),
  );
  return { rewrites, outdated };
}

function noticesOf({ hasMacros }: Workbook): readonly string[] {
  if (!hasMacros) return [];
  return ["The workbook has macros. Where they name cells by address, they still name the old ones."];
}

/** The edits that take the list of the order of calculation out: the spreadsheet program makes it anew. */
export function withoutCalculationOrder({ relationships }: Workbook): readonly WorkbookEdit[] {
  const chain = relationships.find(({ kind }) => kind === "calcChain");
  return chain === undefined ? [] : [{ kind: "removePart", partName: chain.target }];
}

/** Writes changed parts and opens the workbook anew. */
export function withParts(workbook: Workbook, edits: readonly WorkbookEdit[], options: PatchOptions): Workbook {
  const bytes = patchWorkbook(workbook, edits, options);
  return openWorkbook(bytes, workbook.fileName, workbook.archive.codec);
}

/**
 * Carries a change of rows through a workbook. All is worked out before anything is written.
 *
 * @param table - The table that the new rows belong to
 * @throws {WorkbookFileError} Where something cannot follow, with its place and what to do
 */
export function restructure(
  workbook: Workbook,
  change: RowChange,
  table: Table | undefined,
  options: PatchOptions = {},
): Restructured {
  requireSimpleHistory(workbook);
  const { rewrites, outdated } = computed(workbook, change, table);
  const edits = rewrites.map(([partName, content]): WorkbookEdit => ({ kind: "part", partName, content }));
  return {
    workbook: withParts(workbook, [...edits, ...withoutCalculationOrder(workbook)], options),
    outdated,
    notices: noticesOf(workbook),
  };
}
