import { parseRange } from "../address.js";
import type { Table } from "../sheet.js";
import { WorkbookFileError } from "../workbook-file-error.js";
import { readXml, type XmlAttributes } from "../xml/read-xml.js";
import { decodeXstring } from "../xml/text.js";
import { makeFilterReader } from "./filters.js";

const REPAIR = "Open it in your spreadsheet program, let it repair the file, and save it again.";

/**
 * Reads a table part.
 *
 * @source ECMA-376-1:2016, section 18.5.1
 */
export function readTable(bytes: Uint8Array, place: string, partName: string): Table {
  const columns: { name: string; calculatedFormula: string | undefined }[] = [];
  const filter = makeFilterReader();
  let root: XmlAttributes | undefined;
  let isInFilter = false;
  let isInFormula = false;
  readXml(bytes, place, {
    open(name, attributes, depth, start, end) {
      if (depth === 2) isInFilter = name === "autoFilter";
      if (isInFilter) filter.open(name, attributes, depth, start, end);
      if (depth === 1 && name === "table") root = attributes;
      if (depth === 3 && name === "tableColumn") {
        columns.push({ name: decodeXstring(attributes["name"] ?? ""), calculatedFormula: undefined });
      }
      isInFormula = depth === 4 && name === "calculatedColumnFormula";
    },
    text(chunk) {
      const column = columns.at(-1);
      if (isInFormula && column !== undefined) column.calculatedFormula = (column.calculatedFormula ?? "") + chunk;
    },
    close() {
      isInFormula = false;
    },
  });
  const range = parseRange(root?.["ref"] ?? "");
  const name = root?.["displayName"] ?? root?.["name"];
  if (root === undefined || range === undefined || name === undefined) {
    throw new WorkbookFileError("damaged-workbook", place, "is a table without a name or a place", REPAIR);
  }
  const [headerRows, totalsRows] = [Number(root["headerRowCount"] ?? 1), Number(root["totalsRowCount"] ?? 0)];
  const rows = range.lastRow - range.firstRow + 1;
  if (![headerRows, totalsRows].every((count) => Number.isInteger(count) && count >= 0 && count <= rows)) {
    const problem = `is the table “${name.slice(0, 40)}” with more headings or totals than it has rows`;
    throw new WorkbookFileError("damaged-workbook", place, problem, REPAIR);
  }
  return {
    name,
    partName,
    range,
    headerRows,
    totalsRows,
    columns,
    filteredRange: filter.filteredRange(),
    choices: filter.choices(),
  };
}
