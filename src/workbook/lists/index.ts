/*
 * What a list of outlets is, for every host and everybody who asks.
 *
 * fileSource or hostSource (../source) shows a workbook; findLists finds its lists, by their headings or by a
 * ColumnMapping that the workbook keeps in hidden names (mapping-names.ts), and says which sheets look like one and cannot be read; readList reads every filled row of a list into
 * a ListedOutlet and names what is no outlet (totals, remarks); traversesOn and readTraverse do the same for a sheet
 * that holds one duct traverse. Whatever is not read, or not taken, is a Finding with its sheet and cell.
 *
 * The headings are data: columns.ts. What a job states once (units, limits, number) is read by ../job.
 */
export {
  airflowFromReadings,
  countingAreaFt2,
  type OpeningInputs,
  type RowInputs,
  wholeAreaFt2,
} from "./airflow-from-readings.js";
export {
  type ColumnContent,
  type ColumnMapping,
  type MappedColumn,
  type StatedForRows,
  TITLE_USES,
  type TitleUse,
} from "./column-mapping.js";
export {
  type ColumnRole,
  type ColumnUnit,
  headingOf,
  LIST_COLUMN_KEYS,
  LIST_COLUMNS,
  type ListColumn,
  type ListColumnKey,
  OUTLET_KINDS,
  type OutletKind,
  READING_HEADINGS,
  type ReadingHeading,
  type ReadingState,
} from "./columns.js";
export { type FoundLists, findLists } from "./find-lists.js";
export { plainHeading, type ReadHeading, readHeading } from "./heading.js";
export { KIND_WORDS } from "./kind-words.js";
export { hasRowFormula, type ListRow, rowCell, rowFormula, rowsOf, scaledCell } from "./list-rows.js";
export type { ListedAirflow, ListedOutlet, RowOpening } from "./listed-outlet.js";
export {
  MAPPED_UNIT_NAMES,
  MAPPED_UNITS,
  type MappedUnit,
  type MappedUnitName,
  type Measured,
  mappedUnit,
  squareFeetOf,
} from "./mapped-unit.js";
export { isMappingName, type KeptMappings, MAPPING_NAME_PREFIX, mappingsIn, namesOfMapping } from "./mapping-names.js";
export { inUnits } from "./opening-in-units.js";
export { type ListForm, listAt, type OutletList, type ReadingColumns, readingsOf } from "./outlet-list.js";
export { hiddenOutlets, type ReadList, readList } from "./read-list.js";
export { OLD_READING, readListedOutlet, unitSystemIn } from "./read-outlet.js";
export { AIRFLOW_KEYS } from "./state-airflow.js";
export { TITLE_WORDS, titleUse } from "./title-words.js";
export { type ListTitle, titlesIn } from "./titles.js";
export {
  type ListedTraverse,
  readTraverse,
  TRAVERSE_GRID,
  TRAVERSE_LABELS,
  type TraverseSheet,
  traversesOn,
} from "./traverse-sheet.js";
