import { type CellRange, formatRange, parseRange } from "../address.js";
import { moveFormula } from "../formula/move-formula.js";
import type { StoredFormula } from "../read/cell-table.js";
import type { Sheet } from "../sheet.js";
import { changeFormula, type SheetsBetween } from "./change-formula.js";
import { grownSpan, movedRow, movedSpan, type RowChange } from "./row-change.js";
import { refused } from "./structure-context.js";

/** What becomes of a stored formula. */
export interface FormulaAfter {
  /** The text that its own cell has, a shared one spelled out. */
  readonly text: string;
  /** Spelled anew as a formula of this cell alone, where it shared its text with others that are no longer like it. */
  readonly isRespelled: boolean;
  /** The attributes of its element that change. */
  readonly attributes: Readonly<Record<string, string>>;
  /** Whether the element's own text changes. */
  readonly hasNewText: boolean;
  /** Whether it reads more or fewer rows than before. */
  readonly isResized: boolean;
}

/** Told of a formula that cannot follow. */
export type Stuck = (what: string, formula: string) => void;

function textOf(sheet: Sheet, formula: StoredFormula): string {
  if (formula.kind !== "shared") return formula.text;
  const master = sheet.cells.formulas[formula.masterIndex];
  if (master === undefined) return formula.text;
  return moveFormula(master.text, formula.row - master.row, formula.column - master.column);
}

/** The block that an array formula or a what-if table fills, after the change. */
function filledAfter(sheet: Sheet, formula: StoredFormula, range: CellRange, change: RowChange): string {
  const span = { first: range.firstRow, last: range.lastRow };
  const isDynamic = formula.kind === "array" && formula.isDynamic;
  const after = isDynamic ? grownSpan(change, span) : movedSpan(change, span);
  const isTornApart =
    change.order !== undefined &&
    span.first <= change.order.last &&
    span.last >= change.order.first &&
    span.first < span.last;
  const isWhole = !isTornApart && after !== undefined && after.last - after.first === span.last - span.first;
  const losesItsCell = movedRow(change, formula.row) === undefined;
  if (after === undefined || losesItsCell || (!isWhole && (!isDynamic || isTornApart))) {
    const kind = formula.kind === "dataTable" ? "a what-if table" : "one array formula";
    throw refused(
      sheet.workbook,
      `sheet “${sheet.name}”, ${formatRange(range)}`,
      `is filled by ${kind}, of which rows can neither go nor come between`,
      "Clear that block first, or choose rows above or below it.",
    );
  }
  return formatRange({ ...range, firstRow: after.first, lastRow: after.last });
}

/** May name several sheets: `Jan:Mar!` or `'Jan 1:Mar 1'!`. */
const THROUGH_SHEETS = /:[^!:,;()+\-*/&<>=\s"']*!|'[^'!]*:[^'!]*'!/;

/** Whether a change of rows may concern a formula's text: it names the sheet, or reaches to the rows. */
export function mayConcern(text: string, isOwn: boolean, change: RowChange): boolean {
  if (isOwn) {
    if (change.order !== undefined) return true;
    for (const [digits] of text.matchAll(/\d+/g)) {
      if (Number(digits) >= change.at - 1) return true;
    }
    return text.includes("!");
  }
  if (!text.includes("!")) return false;
  const lower = text.toLowerCase();
  return lower.includes(change.sheet.toLowerCase().replaceAll("'", "''")) || THROUGH_SHEETS.test(text);
}

/**
 * Says what becomes of the formulas of a sheet. Those that share their text go on sharing it while they read alike.
 *
 * @returns By the index of the formula; undefined where nothing changes, or its row goes
 * @throws {WorkbookFileError} Where rows would part a block that one formula fills
 */
export function formulasAfter(
  sheet: Sheet,
  change: RowChange,
  between: SheetsBetween,
  stuck: Stuck,
): readonly (FormulaAfter | undefined)[] {
  const { formulas } = sheet.cells;
  const isOwn = sheet.name.toLowerCase() === change.sheet.toLowerCase();
  const rowAfter = (row: number): number | undefined => (isOwn ? movedRow(change, row) : row);

  const texts = formulas.map((formula) => {
    const old = textOf(sheet, formula);
    if (rowAfter(formula.row) === undefined || !mayConcern(old, isOwn, change))
      return { old, text: old, isResized: false };
    const place = { sheet: sheet.name, row: formula.row, column: formula.column };
    const changed = changeFormula(old, place, change, between);
    if (changed.stuck)
      stuck(
        formatRange({
          firstRow: formula.row,
          lastRow: formula.row,
          firstColumn: formula.column,
          lastColumn: formula.column,
        }),
        old,
      );
    return { old, ...changed };
  });

  const families = new Map<number, number[]>();
  formulas.forEach(({ kind, masterIndex }, index) => {
    if (kind !== "shared" || masterIndex < 0) return;
    const family = families.get(masterIndex);
    if (family === undefined) families.set(masterIndex, [index]);
    else family.push(index);
  });
  const parted = new Set<number>();
  for (const [masterIndex, family] of families) {
    if (!staysAlike(masterIndex, family)) parted.add(masterIndex);
  }

  function staysAlike(masterIndex: number, family: readonly number[]): boolean {
    const master = formulas[masterIndex] as StoredFormula;
    const shift = (rowAfter(master.row) ?? Number.NaN) - master.row;
    const newText = texts[masterIndex]?.text ?? "";
    return family.every((index) => {
      const { row, column } = formulas[index] as StoredFormula;
      if ((rowAfter(row) ?? Number.NaN) - row !== shift) return false;
      return moveFormula(newText, row - master.row, column - master.column) === texts[index]?.text;
    });
  }

  return formulas.map((formula, index): FormulaAfter | undefined => {
    const { kind, masterIndex } = formula;
    const range = isOwn && kind !== "plain" ? parseRange(formula.range ?? "") : undefined;
    const isBlock = range !== undefined && (kind === "array" || kind === "dataTable");
    // Also where its own row goes: a block may not lose the formula that fills it.
    const filled = isBlock && !goesWhole(range, change) ? filledAfter(sheet, formula, range, change) : undefined;
    if (rowAfter(formula.row) === undefined) return undefined;
    const { old, text, isResized } = texts[index] as (typeof texts)[number];
    if (kind === "shared" && parted.has(masterIndex)) {
      return { text, isRespelled: true, attributes: {}, hasNewText: true, isResized };
    }
    const shared =
      kind === "shared" && range !== undefined
        ? movedSpan(change, { first: range.firstRow, last: range.lastRow })
        : undefined;
    const ref = filled ?? (shared && range && formatRange({ ...range, firstRow: shared.first, lastRow: shared.last }));
    const attributes = ref === undefined || ref === formula.range ? {} : { ref };
    const hasNewText = text !== old && (kind !== "shared" || masterIndex === index);
    const isAsBefore = !hasNewText && Object.keys(attributes).length === 0 && !isResized;
    // The input cells of a what-if table are named by its tag.
    if (isAsBefore && !(kind === "dataTable" && isOwn)) return undefined;
    return { text, isRespelled: false, attributes, hasNewText, isResized };
  });
}

function goesWhole({ firstRow, lastRow }: CellRange, { at, deleted }: RowChange): boolean {
  return deleted > 0 && firstRow >= at && lastRow < at + deleted;
}
