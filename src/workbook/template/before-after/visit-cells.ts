import { averageVelocity } from "../../../core/index.js";
import { formatAddress } from "../../../xlsx/address.js";
import {
  type ListColumnKey,
  type ListedOutlet,
  type OutletList,
  squareFeetOf,
  wholeAreaFt2,
} from "../../lists/index.js";
import { quotedSheet } from "../plan-parts.js";
import type { CellContent } from "../sheet-plan.js";

/** What a cell of the new sheet gets: a figure as it is now, and the formula that follows the cell it is from. */
export interface TakenCell {
  readonly value: CellContent;
  /** Null where no formula gives the value: it then stays as it is. */
  readonly formula: string | null;
}

/** A cell of a list as another sheet calls it. */
export function referenceTo({ sheet }: OutletList, row: number, column: number): string {
  return `${quotedSheet(sheet)}!${formatAddress(row, column)}`;
}

/** A formula that is empty while its cell is, where a plain reference would show a 0. */
const following = (cell: string, scale = 1) => `=IF(${cell}="","",${cell}${scale === 1 ? "" : `*${scale}`})`;

/** What a row says in a column, or above it. */
export function taken({ list, row: { row } }: ListedOutlet, key: ListColumnKey, value: CellContent): TakenCell {
  const column = list.columns.get(key);
  if (column === undefined) return { value, formula: null };
  const stored = list.source.valueAt(row, column);
  const scale = list.columnScales.get(column) ?? 1;
  const isWritten = typeof stored === "string" && typeof value === "number";
  const isSaidElsewhere = stored === null && value !== null && value !== "";
  const isOwnWord = typeof stored === "string" && typeof value === "string" && stored.trim() !== value;
  if (isWritten || isSaidElsewhere || isOwnWord) return { value, formula: null };
  return { value: value === "" ? null : value, formula: following(referenceTo(list, row, column), scale) };
}

/** One reading. Text among readings goes along, so that the new sheet refuses it as the old one does. */
export function takenReading({ list, row: { row } }: ListedOutlet, column: number): TakenCell {
  const stored = list.source.valueAt(row, column);
  const scale = list.columnScales.get(column) ?? 1;
  const value = typeof stored === "number" ? stored * scale : typeof stored === "object" ? null : stored;
  return { value, formula: following(referenceTo(list, row, column), scale) };
}

/**
 * The average of the points of one visit, which stands for one sweep: points differ by their place, and would pass for
 * sweeps that do not repeat. Text among them is handed on, so that the new sheet refuses it as the old one does.
 */
export function takenAverage(outlet: ListedOutlet, columns: readonly number[]): TakenCell {
  const { list, row } = outlet;
  const readings = columns.map((column) => takenReading(outlet, column).value).filter((value) => value !== null);
  const numbers = readings.filter((value) => typeof value === "number");
  const text = readings.find((value) => typeof value !== "number" && value !== "");
  const mean = numbers.length === 0 ? null : averageVelocity(numbers);
  const [first = 1] = columns;
  const isBlock = columns.every((column, index) => column === first + index);
  if (!isBlock || columns.some((column) => list.columnScales.has(column)))
    return { value: text ?? mean, formula: null };
  const block = `${referenceTo(list, row.row, first)}:${formatAddress(row.row, first + columns.length - 1)}`;
  const refused = `IF(COUNTIF(${block},"?*")>0,VALUE("text among readings"),AVERAGE(${block}))`;
  return { value: text ?? mean, formula: `=IF(COUNT(${block})=0,"",${refused})` };
}

/** A reading that counts only while its row does not say that it is old. */
export function unlessOld(outlet: ListedOutlet, cell: TakenCell, oldWord: string): TakenCell {
  const { list, row } = outlet;
  const column = list.columns.get("age");
  if (column === undefined) return cell;
  const age = referenceTo(list, row.row, column);
  const formula = cell.formula === null ? null : `=IF(${age}="${oldWord}","",${cell.formula.slice(1)})`;
  return { value: outlet.isOld ? null : cell.value, formula };
}

/**
 * The factor of a row, or what makes its size the area that counts; undefined where that area is larger than the whole.
 */
export function takenFactor(outlet: ListedOutlet): TakenCell | undefined {
  const { list, row, opening } = outlet;
  if (opening.freeArea === null || opening.width === null) return taken(outlet, "factor", outlet.factor);
  const units = outlet.units ?? "ip";
  const inputs = { ...opening, sizeUnits: opening.sizeUnits ?? units, areaUnits: opening.areaUnits ?? units };
  const wholeFt2 = wholeAreaFt2(inputs);
  const ratio = wholeFt2 === null ? null : squareFeetOf(opening.freeArea, inputs.areaUnits) / wholeFt2;
  if (ratio === null || ratio > 1) return undefined;
  const [counting, whole] = [list.columns.get("effectiveArea"), list.columns.get("area")];
  if (
    counting === undefined ||
    whole === undefined ||
    list.columnScales.has(counting) ||
    list.columnScales.has(whole)
  ) {
    return { value: ratio, formula: null };
  }
  const cells = [counting, whole].map((column) => referenceTo(list, row.row, column));
  const byFactor = taken(outlet, "factor", outlet.factor).formula?.slice(1) ?? '""';
  return { value: ratio, formula: `=IF(COUNT(${cells.join(",")})=2,${cells.join("/")},${byFactor})` };
}
