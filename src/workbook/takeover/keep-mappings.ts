import { type DefinedName, nameEdits, type Workbook, type WorkbookEdit } from "../../xlsx/index.js";
import { type ColumnMapping, isMappingName, mappingsIn, namesOfMapping } from "../lists/index.js";

interface Columns {
  readonly firstColumn: number;
  readonly lastColumn: number;
}

/** Whether columns side by side have any in common. */
export const overlaps = (one: Columns, other: Columns) =>
  one.firstColumn <= other.lastColumn && other.firstColumn <= one.lastColumn;

const columnsOf = ({ columns }: ColumnMapping): Columns => {
  const numbers = columns.map(({ column }) => column);
  return { firstColumn: Math.min(...numbers), lastColumn: Math.max(...numbers) };
};

/** Whether a mapping is of the list below some headings: of lists side by side each has its own. */
export function isSamePlace(
  mapping: ColumnMapping,
  { sheet, headerRow, ...columns }: Pick<ColumnMapping, "sheet" | "headerRow"> & Columns,
): boolean {
  const isHere = mapping.sheet.toLowerCase() === sheet.toLowerCase() && mapping.headerRow === headerRow;
  return isHere && overlaps(columnsOf(mapping), columns);
}

/** Whether two mappings are of one list. */
export const isSameList = (one: ColumnMapping, other: ColumnMapping) =>
  isSamePlace(one, { ...other, ...columnsOf(other) });

/** Every mapping that a workbook keeps after some are said anew: one for each list of each sheet. */
export function mergedMappings(
  before: readonly ColumnMapping[],
  said: readonly ColumnMapping[],
): readonly ColumnMapping[] {
  const isAnew = (one: ColumnMapping) => said.some((anew) => isSameList(one, anew));
  return [...before.filter((one) => !isAnew(one)), ...said].map((one, index) => ({ ...one, list: index + 1 }));
}

/** The hidden names by which a workbook keeps its mappings. */
export function mappingNames(mappings: readonly ColumnMapping[]): readonly Omit<DefinedName, "sheet">[] {
  return mappings.flatMap(namesOfMapping).map(({ name, refersTo }) => ({ name, refersTo, isHidden: true }));
}

/** Returns the edits by which a file keeps mappings in place of those that it keeps; nothing else of it changes. */
export function mappingEdits(workbook: Workbook, mappings: readonly ColumnMapping[]): readonly WorkbookEdit[] {
  const before = mappingsIn(workbook.names).value;
  const isSame = JSON.stringify(mappingNames(before)) === JSON.stringify(mappingNames(mappings));
  return isSame ? [] : nameEdits(workbook, mappingNames(mappings), isMappingName);
}
