import { type ColumnMapping, findLists, mappingsIn } from "../lists/index.js";
import type { WorkbookSource } from "../source/index.js";
import { fitMapping } from "./fit-mapping.js";
import { isSameList } from "./keep-mappings.js";

/** What one workbook keeps of its columns, as it fits another. */
export interface FittedWorkbook {
  readonly mappings: readonly ColumnMapping[];
  /** Why nothing fits, or what a sheet that nearly fits lacks, each with its sheet. */
  readonly unfit: readonly string[];
}

/** Lays what one workbook keeps of its columns over another of the same make, sheet by sheet. */
export function fitWorkbook(
  master: Pick<WorkbookSource, "sheets" | "names">,
  onto: Pick<WorkbookSource, "sheets">,
): FittedWorkbook {
  const kept = mappingsIn(master.names).value;
  const mappings: ColumnMapping[] = [];
  const unfit: string[] = [];
  const known = new Set(findLists({ sheets: onto.sheets, names: [] }).value.map(({ sheet }) => sheet.toLowerCase()));
  for (const sheet of onto.sheets) {
    if (known.has(sheet.name.toLowerCase())) continue;
    const own = kept.filter((one) => one.sheet.toLowerCase() === sheet.name.toLowerCase());
    const tried = (own.length > 0 ? own : kept).map((mapping) => {
      const from = master.sheets.find(({ name }) => name.toLowerCase() === mapping.sheet.toLowerCase());
      return from === undefined ? { unfit: [] } : fitMapping(from, mapping, sheet, mapping.list);
    });
    const before = mappings.length;
    for (const one of tried) {
      if ("mapping" in one && !mappings.some((other) => isSameList(other, one.mapping))) mappings.push(one.mapping);
    }
    if (mappings.length > before) continue;
    const lacks = tried.flatMap((one) => ("unfit" in one ? [one.unfit] : []));
    const [least = []] = [...lacks].sort((one, other) => one.length - other.length);
    const most = Math.max(...kept.map(({ columns }) => columns.length));
    // A sheet that has next to nothing in common is no list of this make.
    if (own.length > 0 || (least.length > 0 && least.length * 2 < most))
      unfit.push(`${sheet.name}: ${least.join("; ")}`);
  }
  if (mappings.length === 0 && unfit.length === 0) unfit.push("no sheet has the headings");
  return { mappings, unfit };
}
