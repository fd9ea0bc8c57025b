import { type CellRange, type PlacedTable, parseRange } from "../../../xlsx/index.js";
import type { CellBlock, CellValue, SheetInfo, TableInfo, WorkbookHost } from "../../host.js";
import type {
  CheckedFormula,
  CheckedName,
  CheckedSheet,
  CheckedValue,
  CheckedWorkbook,
  FilledCell,
} from "./checked-workbook.js";

interface ShownBlock {
  readonly values: readonly (readonly CheckedValue[])[];
  readonly formulas: CellBlock["formulas"];
}

const NOTHING: CellRange = { firstRow: 1, firstColumn: 1, lastRow: 0, lastColumn: 0 };

function formulasOf({ formulas }: ShownBlock, { firstRow, firstColumn }: CellRange): readonly CheckedFormula[] {
  return formulas.flatMap((cells, down) =>
    cells.flatMap((formula, across) =>
      formula === null
        ? []
        : [{ row: firstRow + down, column: firstColumn + across, text: formula.replace(/^=/, ""), fills: undefined }],
    ),
  );
}

function* filledCells({ values }: ShownBlock, used: CellRange, range: CellRange): Generator<FilledCell> {
  const lastRow = Math.min(range.lastRow, used.lastRow);
  const lastColumn = Math.min(range.lastColumn, used.lastColumn);
  for (let row = Math.max(range.firstRow, used.firstRow); row <= lastRow; row += 1) {
    for (let column = Math.max(range.firstColumn, used.firstColumn); column <= lastColumn; column += 1) {
      const value = values[row - used.firstRow]?.[column - used.firstColumn] ?? null;
      if (value !== null) yield { row, column, value };
    }
  }
}

/** Excel says no more of a call that it could not read than that: #NAME?, without a message. */
function readInExcel(value: CellValue): CheckedValue {
  const isUnread = typeof value === "object" && value?.error === "#NAME?";
  return isUnread ? { error: value.error, message: "" } : value;
}

function shownBlock({ kind }: WorkbookHost, { values, formulas }: CellBlock): ShownBlock {
  return { formulas, values: kind === "excel" ? values.map((cells) => cells.map(readInExcel)) : values };
}

function checkedSheet(name: string, used: CellRange, block: ShownBlock): CheckedSheet {
  return {
    name,
    lastRow: used.lastRow,
    lastColumn: used.lastColumn,
    valueAt: (row, column) => block.values[row - used.firstRow]?.[column - used.firstColumn] ?? null,
    cellsIn: (range) => filledCells(block, used, range),
    formulas: formulasOf(block, used),
  };
}

/** A name that counts on one sheet alone begins with that sheet. */
function checkedName(name: string, refersTo: string): CheckedName {
  const at = name.lastIndexOf("!");
  const sheet = at < 0 ? undefined : name.slice(0, at).replace(/^'(.*)'$/, "$1");
  return { name: name.slice(at + 1), sheet, refersTo };
}

function placedTable({ sheet, range, columns, ...table }: TableInfo): readonly PlacedTable[] {
  const parsed = parseRange(range);
  if (parsed === undefined) return [];
  return [{ sheet, table: { ...table, range: parsed, columns: columns.map((name) => ({ name })) } }];
}

/** Shows the workbook that a host has open to the checks; it reads every sheet in one batch. */
export async function checkedHost(host: WorkbookHost): Promise<CheckedWorkbook> {
  const infos = await host.sheets();
  const used = infos.filter((info): info is SheetInfo & { usedRange: string } => info.usedRange !== null);
  const blocks = await host.read(used.map(({ name, usedRange }) => ({ sheet: name, range: usedRange })));
  const byName = new Map(used.map(({ name }, index) => [name, shownBlock(host, blocks[index] as CellBlock)]));
  const names = await host.names();
  const tables = (await host.tables?.()) ?? [];
  return {
    sheets: infos.map(({ name, usedRange }) => {
      const empty: ShownBlock = { values: [], formulas: [] };
      return checkedSheet(name, (usedRange && parseRange(usedRange)) || NOTHING, byName.get(name) ?? empty);
    }),
    names: [...names].map(([name, refersTo]) => checkedName(name, refersTo)),
    tables: tables.flatMap(placedTable),
    spelling: "typed",
  };
}
