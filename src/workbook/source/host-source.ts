import { type CellRange, parseRange } from "../../xlsx/index.js";
import type { CellBlock, CellValue, ReadableHost, SheetInfo, SheetLayout, TableInfo, WorkbookHost } from "../host.js";
import type { SheetSource, SourceName, SourceTable, SourceValue, WorkbookSource } from "./workbook-source.js";

const NOTHING: CellRange = { firstRow: 1, firstColumn: 1, lastRow: 0, lastColumn: 0 };

/** Excel says no more of a call that it could not read than that: #NAME?, without a message. */
function readInExcel(value: CellValue): SourceValue {
  const isUnread = typeof value === "object" && value?.error === "#NAME?";
  return isUnread ? { error: value.error, message: "" } : value;
}

function* rowsBetween(first: number, last: number): Generator<number> {
  for (let row = first; row <= last; row += 1) yield row;
}

/** Shows one block of a sheet as that sheet. */
function blockSource(
  name: string,
  used: CellRange,
  { values, formulas }: Pick<CellBlock, "values" | "formulas">,
  tables: readonly SourceTable[],
  layout: SheetLayout | undefined,
  kind: WorkbookHost["kind"],
): SheetSource {
  const hidden = new Set(layout?.hiddenRows);
  const formulaAt = (row: number, column: number) => formulas[row - used.firstRow]?.[column - used.firstColumn];
  const valueAt = (row: number, column: number) => values[row - used.firstRow]?.[column - used.firstColumn] ?? null;
  return {
    name,
    tables,
    mergedRanges: layout?.mergedRanges.flatMap((range) => parseRange(range) ?? []) ?? [],
    isRowHidden: (row) => hidden.has(row),
    lastRow: used.lastRow,
    lastColumn: used.lastColumn,
    rowsFrom: (row) => rowsBetween(Math.max(row, used.firstRow), used.lastRow),
    valueAt: kind === "excel" ? (row, column) => readInExcel(valueAt(row, column)) : valueAt,
    formulaAt: (row, column) => formulaAt(row, column)?.replace(/^=/, ""),
    hasFormula: (row, column) => (formulaAt(row, column) ?? null) !== null,
  };
}

/** A name that counts on one sheet alone begins with that sheet. */
export function namesOf(names: ReadonlyMap<string, string>): readonly SourceName[] {
  return [...names].map(([name, refersTo]) => {
    const at = name.lastIndexOf("!");
    const sheet = at < 0 ? undefined : name.slice(0, at).replace(/^'(.*)'$/, "$1");
    return { name: name.slice(at + 1), sheet, refersTo };
  });
}

function tableOn(
  on: string,
  { name, sheet, range, headerRows, totalsRows, columns }: TableInfo,
): readonly SourceTable[] {
  const parsed = parseRange(range);
  if (sheet !== on || parsed === undefined) return [];
  return [{ name, range: parsed, headerRows, totalsRows, columns: columns.map((column) => ({ name: column })) }];
}

/**
 * Shows sheets of the workbook that a host has open; reads them whole, in one batch.
 *
 * @param sheets - Those to read; every sheet where it is left out
 */
export async function hostSource(host: ReadableHost, sheets?: readonly SheetInfo[]): Promise<WorkbookSource> {
  const infos = sheets ?? (await host.sheets());
  const used = infos.filter((info): info is SheetInfo & { usedRange: string } => info.usedRange !== null);
  const blocks = await host.read(used.map(({ name, usedRange }) => ({ sheet: name, range: usedRange })));
  const byName = new Map(used.map(({ name }, index) => [name, blocks[index]]));
  const tables = (await host.tables?.()) ?? [];
  const layouts = new Map(((await host.layouts?.(used)) ?? []).map((layout) => [layout.sheet, layout]));
  const names = await host.names();
  return {
    sheets: infos.map(({ name, usedRange }) => {
      const range = (usedRange === null ? undefined : parseRange(usedRange)) ?? NOTHING;
      const block = byName.get(name) ?? { values: [], formulas: [] };
      return blockSource(
        name,
        range,
        block,
        tables.flatMap((table) => tableOn(name, table)),
        layouts.get(name),
        host.kind,
      );
    }),
    names: namesOf(names),
    usesDate1904: false,
  };
}
