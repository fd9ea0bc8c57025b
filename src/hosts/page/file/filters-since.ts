import type { TableFilter } from "../../../xlsx/index.js";
import { parseRange } from "../../../xlsx/index.js";
import type { ExportedSheet } from "./engine-export.js";

interface ExportedTable {
  readonly range: string;
  readonly config?: { readonly choices?: TableFilter["choices"] };
}

/** The rows of a sheet that a filter hides, counted from 0. */
export function filteredRowsIn(sheet: ExportedSheet): ReadonlySet<number> {
  return new Set((sheet["filteredRows"] ?? []) as readonly number[]);
}

/** What the filter of each table of a sheet lets be seen, and which rows it hides. */
export function filtersOf(sheet: ExportedSheet): readonly TableFilter[] {
  const rows = [...filteredRowsIn(sheet)].map((row) => row + 1);
  return ((sheet["tables"] ?? []) as readonly ExportedTable[]).map(({ range, config }) => {
    const block = parseRange(range);
    const isInside = (row: number): boolean => block !== undefined && row >= block.firstRow && row <= block.lastRow;
    const hiddenRows = rows.filter(isInside).sort((one, other) => one - other);
    return { sheet: sheet.name, range, choices: config?.choices ?? {}, hiddenRows };
  });
}

/** The filters of a sheet that are not what they were. */
export function filtersSince(before: ExportedSheet, after: ExportedSheet): readonly TableFilter[] {
  const known = new Map(filtersOf(before).map((filter) => [filter.range, JSON.stringify(filter)]));
  return filtersOf(after)
    .map((filter) => ({ ...filter, sheet: before.name }))
    .filter((filter) => {
      const old = known.get(filter.range);
      const isNone = Object.keys(filter.choices).length === 0 && filter.hiddenRows.length === 0;
      return old === undefined ? !isNone : old !== JSON.stringify(filter);
    });
}
