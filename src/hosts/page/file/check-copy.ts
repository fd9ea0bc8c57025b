import {
  type CellBlock,
  type CheckReport,
  checkedHost,
  checkWorkbook,
  type ReadableHost,
  type SheetInfo,
  type SheetLayout,
  type TableInfo,
} from "../../../workbook/index.js";

/** Rows of a block as text: values and formulas, which travel to a worker at once that way. */
export type PackedRows = readonly string[];

/** A workbook as it stands in the grid, to be looked through elsewhere. */
export interface WorkbookCopy {
  readonly sheets: readonly SheetInfo[];
  /** What stands in the used part of each sheet that has one, by its name. */
  readonly rows: Readonly<Record<string, PackedRows>>;
  readonly tables: readonly TableInfo[];
  readonly layouts: readonly SheetLayout[];
  readonly names: readonly (readonly [name: string, refersTo: string])[];
}

/** Values and formulas of rows. */
export type Rows = Pick<CellBlock, "values" | "formulas">;

export function packedRows(rows: Rows): string {
  return JSON.stringify(rows);
}

function unpacked(packed: PackedRows): Rows {
  const parts = packed.map((text) => JSON.parse(text) as Rows);
  return { values: parts.flatMap(({ values }) => values), formulas: parts.flatMap(({ formulas }) => formulas) };
}

function hostOf({ sheets, rows, tables, layouts, names }: WorkbookCopy): ReadableHost {
  return {
    kind: "page",
    sheets: async () => sheets,
    read: async (addresses) => addresses.map((address) => ({ address, ...unpacked(rows[address.sheet] ?? []) })),
    names: async () => new Map(names),
    tables: async () => tables,
    layouts: async (asked) => asked.flatMap(({ name }) => layouts.find(({ sheet }) => sheet === name) ?? []),
  };
}

/** Looks through a copy of the workbook in the grid, as it would be looked through there. */
export async function checkCopy(copy: WorkbookCopy): Promise<CheckReport> {
  return checkWorkbook(await checkedHost(hostOf(copy)));
}
