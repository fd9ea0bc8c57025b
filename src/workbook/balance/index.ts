export { type BalanceGroup, balanceGroups } from "./balance-groups.js";
export { type FieldEntry, type FieldOutlet, readFieldOutlets } from "./field-outlets.js";
export { expandedPercent, type OutletChange, outletChange } from "./outlet-change.js";
export type { OutletRow } from "./outlet-row.js";
export { type OutletsOfWorkbook, readOutletLists } from "./read-outlet-lists.js";
export { ageEdits, asFoundEdits, readingEdits } from "./reading-edits.js";
