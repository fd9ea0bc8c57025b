import { type WorkbookConversion, workbookData } from "../../../engine/index.js";
import { isMappingName, mappingNames, mappingsIn } from "../../../workbook/index.js";
import type { Workbook } from "../../../xlsx/index.js";

/**
 * Returns a workbook file as the grid takes it. The grid knows no names of one sheet alone, as a spreadsheet program gives
 * a copied sheet: those by which such a sheet keeps its columns get a number of their own.
 */
export function gridData(workbook: Workbook): WorkbookConversion {
  const conversion = workbookData(workbook);
  const isLocal = workbook.names.some(({ name, sheet }) => sheet !== undefined && isMappingName(name));
  if (!isLocal) return conversion;
  const data = conversion.data as { readonly namedRanges?: Readonly<Record<string, string>> };
  const others = Object.entries(data.namedRanges ?? {}).filter(([name]) => !isMappingName(name));
  const kept = mappingsIn(workbook.names).value.map((mapping, index) => ({ ...mapping, list: index + 1 }));
  const own = mappingNames(kept).map(({ name, refersTo }) => [name, refersTo] as const);
  return { ...conversion, data: { ...data, namedRanges: Object.fromEntries([...others, ...own]) } };
}
