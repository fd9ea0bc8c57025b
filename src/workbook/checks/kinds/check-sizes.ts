import {
  cfmFromLitersPerSecond,
  inchesFromMillimeters,
  rectangleArea,
  roundArea,
  type UnitSystemName,
} from "../../../core/index.js";
import type { ListedOutlet } from "../../lists/index.js";
import type { WorkbookIndex } from "../formulas/workbook-index.js";
import type { CheckedList } from "../listed/checked-lists.js";
import { type Draft, shownNumber } from "../support/draft.js";
import {
  LEAST_PLAUSIBLE_AREA_FT2,
  MOST_PLAUSIBLE_AREA_FT2,
  SIZE_DOUBT_RATIO,
  SIZE_FITS_RATIO,
  SURELY_PLAUSIBLE_AREA_FT2,
} from "../thresholds.js";

/** How many inches each unit has in which a size may have been typed. */
const INCHES = {
  in: 1,
  mm: inchesFromMillimeters(1),
  cm: inchesFromMillimeters(10),
  ft: 12,
  m: inchesFromMillimeters(1000),
};

type LengthUnit = keyof typeof INCHES;

/** What may stand in a cell that wants in, or mm. */
const OTHERS: Readonly<Record<UnitSystemName, readonly LengthUnit[]>> = {
  ip: ["mm", "ft"],
  si: ["in", "cm", "ft", "m"],
};

interface SizedRow {
  readonly width: number;
  readonly height: number | null;
  readonly unit: LengthUnit;
  /** As the row takes it. */
  readonly areaFt2: number;
  readonly flowCfm: number | null;
  readonly designCfm: number | null;
}

function areaIn({ width, height }: Pick<SizedRow, "width" | "height">, unit: LengthUnit): number {
  const inches = INCHES[unit];
  return height === null ? roundArea(width * inches) : rectangleArea(width * inches, height * inches);
}

function sizedRow(outlet: ListedOutlet): SizedRow | null {
  const { width, height, design, measured } = outlet;
  if (width === null || width <= 0 || (height !== null && height <= 0)) return null;
  const unit = (outlet.unitsOf("width") ?? "ip") === "si" ? "mm" : "in";
  const key = (["left", "airflow", "found"] as const).find((one) => outlet.list.columns.has(one)) ?? "airflow";
  const inCfm = (flow: number | null, units: UnitSystemName | null) =>
    flow === null || flow === 0 ? null : Math.abs(units === "si" ? cfmFromLitersPerSecond(flow) : flow);
  return {
    width,
    height,
    unit,
    areaFt2: areaIn({ width, height }, unit),
    flowCfm: inCfm(measured, outlet.unitsOf(key)),
    designCfm: inCfm(design, outlet.unitsOf("design")),
  };
}

/** The unit in which the size makes sense, where it makes none in its own. */
function unitMeant(row: SizedRow): LengthUnit | undefined {
  const { areaFt2, flowCfm, designCfm, unit } = row;
  const isLarge = areaFt2 > SURELY_PLAUSIBLE_AREA_FT2;
  const isSmall = areaFt2 < LEAST_PLAUSIBLE_AREA_FT2;
  if (!isLarge && !isSmall) return undefined;
  const candidates = OTHERS[unit === "mm" ? "si" : "ip"].filter((one) => {
    const area = areaIn(row, one);
    return area >= LEAST_PLAUSIBLE_AREA_FT2 && area <= SURELY_PLAUSIBLE_AREA_FT2;
  });
  if (flowCfm === null || designCfm === null) {
    // Without an airflow and a design only a size that no opening has is doubted.
    return areaFt2 > MOST_PLAUSIBLE_AREA_FT2 || flowCfm !== null ? candidates[0] : undefined;
  }
  const share = flowCfm / designCfm;
  if (share < SIZE_DOUBT_RATIO && share > 1 / SIZE_DOUBT_RATIO) return undefined;
  const far = (one: LengthUnit) => Math.abs(Math.log((share * areaIn(row, one)) / areaFt2));
  const [best] = [...candidates].sort((one, other) => far(one) - far(other));
  return best !== undefined && far(best) <= Math.log(SIZE_FITS_RATIO) ? best : undefined;
}

function spelledSize({ width, height }: SizedRow, unit: LengthUnit, inches = INCHES[unit]): string {
  const sides = [width, ...(height === null ? [] : [height])];
  return `${sides.map((side) => shownNumber((side * inches) / INCHES[unit])).join(" × ")} ${unit}${height === null ? " round" : ""}`;
}

function draft({ sheet, list }: CheckedList, outlet: ListedOutlet, row: SizedRow, meant: LengthUnit): Draft {
  const [first = 1, last = first] = (["width", "height"] as const).flatMap((key) => list.columns.get(key) ?? []);
  const airflow =
    row.flowCfm === null
      ? ""
      : ` and the airflow ${shownNumber(row.flowCfm)} cfm, where ${meant} would make it ${shownNumber((row.flowCfm * areaIn(row, meant)) / row.areaFt2)} cfm${row.designCfm === null ? "" : ` for a design of ${shownNumber(row.designCfm)} cfm`}`;
  return {
    kind: "size-in-other-unit",
    severity: "error",
    sheet,
    range: {
      firstRow: outlet.row.row,
      firstColumn: Math.min(first, last),
      lastRow: outlet.row.row,
      lastColumn: row.height === null ? Math.min(first, last) : Math.max(first, last),
    },
    problem: `${spelledSize(row, row.unit)} makes the area ${shownNumber(row.areaFt2)} ft²${airflow}.`,
    action: `If it was measured in ${meant}, enter ${spelledSize(row, row.unit, INCHES[meant])}.`,
  };
}

/** Sizes of a list that make sense only in another unit than their column's. */
export function checkSizes(_index: WorkbookIndex, lists: readonly CheckedList[]): readonly Draft[] {
  return lists.flatMap((list) =>
    list.outlets.flatMap((outlet) => {
      const row = sizedRow(outlet);
      const meant = row === null ? undefined : unitMeant(row);
      return row === null || meant === undefined ? [] : [draft(list, outlet, row, meant)];
    }),
  );
}
