import { type DefinedName, nameEdits, type Workbook, type WorkbookEdit } from "../../xlsx/index.js";
import { type ColumnMapping, isMappingName, mappingsIn, namesOfMapping } from "../lists/index.js";

/** Every mapping that a workbook keeps after some are said anew: one for each list of each sheet. */
export function mergedMappings(
  before: readonly ColumnMapping[],
  said: readonly ColumnMapping[],
): readonly ColumnMapping[] {
  const place = ({ sheet, headerRow }: ColumnMapping) => `${sheet.toLowerCase()} ${headerRow}`;
  const anew = new Set(said.map(place));
  return [...before.filter((one) => !anew.has(place(one))), ...said].map((one, index) => ({ ...one, list: index + 1 }));
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
