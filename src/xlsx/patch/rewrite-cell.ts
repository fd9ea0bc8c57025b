import { formatAddress, formatRange } from "../address.js";
import { makeCell, storedValue } from "../read/cells.js";
import type { Cell, CellValue, Sheet } from "../sheet.js";
import type { Splice } from "../xml/splice.js";
import { changeTag, tagEnd } from "../xml/tag.js";
import { encodeXstring, escapeXml } from "../xml/text.js";
import { utf8Text } from "../xml/utf8.js";
import type { CellEdit, FormulaEdit } from "./edits.js";
import { valueXml } from "./value-xml.js";

/** A formula element to be spelled out because the text that it shared is gone. */
export interface RespelledFormula {
  readonly cellIndex: number;
  readonly splice: Splice;
}

/** What rewriting the cells of one sheet needs to know. */
export interface RewriteContext {
  readonly sheet: Sheet;
  readonly bytes: Uint8Array;
  readonly dynamicMetadata: number;
  readonly respelled: ReadonlyMap<number, RespelledFormula>;
}

/**
 * Rewrites one cell. It keeps its style and all attributes but the type of its value; metadata of the value goes with the
 * value that it described. What need not change is left out of the splices.
 */
export function rewriteCell(context: RewriteContext, row: number, index: number, edit: CellEdit): readonly Splice[] {
  const { sheet, bytes } = context;
  const { cells, layout } = sheet;
  const { prefix } = layout;
  const start = cells.starts[index] as number;
  const end = cells.ends[index] as number;
  const openEnd = tagEnd(bytes, start);
  const tag = utf8Text(bytes.subarray(start, openEnd));
  const formula = formulaAfter(context, row, index, edit);
  const { type, content } = valueXml(valueAfter(edit, formula.isThere), prefix, edit.kind !== "value");
  const changes = { vm: undefined, t: type, ...formula.changes };
  if (openEnd === end) {
    const inner = (formula.xml ?? "") + content;
    const text = inner === "" ? changeTag(tag, changes, "/>") : `${changeTag(tag, changes, ">")}${inner}</${prefix}c>`;
    return [{ start, end, text }];
  }
  const closeStart = bytes.lastIndexOf(0x3c, end - 1);
  const valueEnd = cells.tails.get(index) ?? closeStart;
  const stored = cells.formulas[cells.formulaIndexes[index] as number];
  const keepsFormula = formula.isThere && formula.xml === undefined && stored !== undefined;
  if (!formula.isThere && content === "" && valueEnd === closeStart) {
    return [{ start, end, text: changeTag(tag, changes, "/>") }];
  }
  const splices: Splice[] = [];
  const open = changeTag(tag, changes, ">");
  if (open !== tag) splices.push({ start, end: openEnd, text: open });
  if (keepsFormula && isOutdated(edit)) splices.push(...calculateOnOpening(bytes, stored.start));
  const contentStart = keepsFormula ? stored.end : openEnd;
  splices.push({ start: contentStart, end: valueEnd, text: (formula.xml ?? "") + content });
  return splices;
}

function isOutdated(edit: CellEdit): boolean {
  return edit.kind === "result" && edit.isOutdated === true;
}

/**
 * Marks a formula to be calculated when the file is opened.
 *
 * @source ECMA-376-1:2016, section 18.3.1.40 (f), attribute ca
 */
function calculateOnOpening(bytes: Uint8Array, start: number): readonly Splice[] {
  const end = tagEnd(bytes, start);
  const tag = utf8Text(bytes.subarray(start, end));
  const text = changeTag(tag, { ca: "1" }, tag.endsWith("/>") ? "/>" : ">");
  return text === tag ? [] : [{ start, end, text }];
}

interface FormulaAfter {
  readonly isThere: boolean;
  /** The formula's element when it is a new one. */
  readonly xml: string | undefined;
  /** What becomes of the cell's attributes. */
  readonly changes: Readonly<Record<string, string | undefined>>;
}

function formulaAfter(context: RewriteContext, row: number, index: number, edit: CellEdit): FormulaAfter {
  const { sheet, dynamicMetadata, respelled } = context;
  const { cells, layout } = sheet;
  const formulaIndex = cells.formulaIndexes[index] as number;
  if (edit.kind === "result") {
    return { isThere: formulaIndex >= 0, xml: respelled.get(formulaIndex)?.splice.text, changes: {} };
  }
  if (edit.kind === "value")
    return { isThere: false, xml: undefined, changes: formulaIndex < 0 ? {} : { cm: undefined } };
  const cell = makeCell(sheet, row, index);
  const array = arrayOf(edit, cell, row, cell.column);
  if (array === undefined) {
    return { isThere: true, xml: plainFormulaXml(edit.formula, layout.prefix), changes: { cm: undefined } };
  }
  return { isThere: true, xml: arrayXml(edit.formula, array, layout.prefix), changes: markOf(edit, dynamicMetadata) };
}

/** What becomes of the mark by which a cell says that its array formula is a dynamic one. */
function markOf({ form }: FormulaEdit, dynamicMetadata: number): FormulaAfter["changes"] {
  if (form === "dynamic") return { cm: String(dynamicMetadata) };
  return form === "array" ? { cm: undefined } : {};
}

/** Spells a cell that the file does not store yet; it takes the style of its row or, failing that, its column. */
export function makeCellXml(
  sheet: Sheet,
  row: number,
  column: number,
  edit: CellEdit,
  rowStyle: number,
  dynamicMetadata: number,
): string {
  const { prefix, columnStyles } = sheet.layout;
  const columnStyle = columnStyles.find(({ first, last }) => column >= first && column <= last)?.style ?? 0;
  const style = rowStyle >= 0 ? rowStyle : columnStyle;
  let formulaXml = "";
  let attributes = ` r="${formatAddress(row, column)}"${style > 0 ? ` s="${style}"` : ""}`;
  if (edit.kind === "formula") {
    const array = arrayOf(edit, undefined, row, column);
    formulaXml = array === undefined ? plainFormulaXml(edit.formula, prefix) : arrayXml(edit.formula, array, prefix);
    if (edit.form === "dynamic") attributes += ` cm="${dynamicMetadata}"`;
  }
  const value = valueXml(valueAfter(edit, formulaXml !== ""), prefix, edit.kind !== "value");
  if (value.type !== undefined) attributes += ` t="${value.type}"`;
  return `<${prefix}c${attributes}>${formulaXml}${value.content}</${prefix}c>`;
}

/** Spells a formula that belongs to its cell alone. */
export function plainFormulaXml(formula: string, prefix: string): string {
  return `<${prefix}f>${escapeXml(encodeXstring(formula))}</${prefix}f>`;
}

function arrayXml(formula: string, range: string, prefix: string): string {
  return `<${prefix}f t="array" ref="${range}">${escapeXml(encodeXstring(formula))}</${prefix}f>`;
}

/** Whether the cell at an index of the table already is what an edit asks for. */
export function isAlready(sheet: Sheet, row: number, index: number, edit: CellEdit): boolean {
  if (isOutdated(edit)) return storedValue(sheet, index) === null;
  const hasFormula = (sheet.cells.formulaIndexes[index] as number) >= 0;
  if (!isSame(storedValue(sheet, index), valueAfter(edit, hasFormula))) return false;
  if (edit.kind === "result") return true;
  if (edit.kind === "value") return !hasFormula;
  const { formula } = makeCell(sheet, row, index);
  if (formula?.text !== edit.formula) return false;
  if (edit.form === "plain") return formula.kind === "plain";
  if (edit.form === "dynamic" && !formula.isDynamic) return false;
  if (edit.form === "array" && (formula.kind !== "array" || formula.isDynamic)) return false;
  return edit.range === undefined || (formula.range !== undefined && formatRange(formula.range) === edit.range);
}

function isSame(one: CellValue, other: CellValue): boolean {
  if (one !== null && other !== null && typeof one === "object" && typeof other === "object") {
    return one.error === other.error;
  }
  return one === other;
}

/** The result of a formula is never blank: the spreadsheet program would show 0. */
function valueAfter(edit: CellEdit, hasFormula: boolean): CellValue {
  const value = edit.kind === "formula" ? edit.result : edit.value;
  return value === null && edit.kind !== "value" && hasFormula && !isOutdated(edit) ? "" : value;
}

/** The cells that a formula will fill as an array, or undefined when it will be a plain one. */
function arrayOf(edit: FormulaEdit, cell: Cell | undefined, row: number, column: number): string | undefined {
  const isArray = cell?.formula?.kind === "array";
  if (edit.form === "plain" || (edit.form !== "dynamic" && edit.form !== "array" && !isArray)) return undefined;
  if (edit.range !== undefined) return edit.range;
  const range = isArray ? cell.formula?.range : undefined;
  return range === undefined ? formatAddress(row, column) : formatRange(range);
}
