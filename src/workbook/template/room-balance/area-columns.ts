import { headingOf } from "../../lists/index.js";
import { areaColumn, basisColumn, freeAreaColumn, resultColumn } from "../face-results.js";
import { AIRFLOW_SCALE, UNITS, unit } from "../plain-formulas.js";
import { listInput, numberInput } from "../plan-parts.js";
import type { ColumnSpec, InputColumn, RowCell } from "../table-block.js";

/** What a manufacturer may publish as the area of a grille. */
export const AREA_KINDS = { effective: "effective area", free: "free area" } as const;

/** What the area of a row comes from, besides those. */
const AREA_FROM = {
  unsaid: "which area",
  large: "too large",
  factor: "factor",
  assumed: "0.75 assumed",
} as const;

/** In the table of outlets: an area as it is published, and which one it is. */
export const PUBLISHED_AREA_COLUMNS: readonly InputColumn[] = [
  {
    kind: "input",
    key: "published",
    header: "Published area",
    unit: unit("in²", "mm²"),
    width: 9,
    format: "general",
    style: "input",
    rule: numberInput(
      "Published area",
      "The effective area (Ak) or free area that the manufacturer publishes for this size and this way of measuring. It comes before the factor.",
      0.1,
      null,
    ),
  },
  {
    kind: "input",
    key: "areaKind",
    header: "Area is",
    unit: "",
    width: 12,
    format: "general",
    style: "inputText",
    rule: listInput(
      "Area is",
      "effective area: found with a named meter at named places, so that it makes the airflow. free area: what the louvers leave open.",
      Object.values(AREA_KINDS),
    ),
  },
];

/** True where a row has an area that is published. */
export function hasPublished(at: RowCell): string {
  return `COUNT(${at("effective")})=1`;
}

/** What a formula gives from a published area, and what from size and factor. */
function either(at: RowCell, published: string, other: string): string {
  return `=IF(${hasPublished(at)},${published},${other.replace(/^=/, "")})`;
}

/** The area of an opening from its size and factor, or as it is published; one cell says which. */
export const AREA_RESULTS: readonly ColumnSpec[] = [
  areaColumn,
  resultColumn("effective", headingOf("effectiveArea"), unit("ft²", "m²"), 8, "fourDecimals", (at) => {
    return `=IF(COUNT(${at("published")})=0,"",${at("published")}/IF(${UNITS}="si",1000000,144))`;
  }),
  resultColumn("areaFrom", "Area from", "", 14, "general", (at) => {
    const kind = `IF(${at("areaKind")}="","${AREA_FROM.unsaid}",${at("areaKind")})`;
    const large = `AND(COUNT(${at("area")})=1,N(${at("effective")})>N(${at("area")}))`;
    const other = `IF(${at("width")}="","",IF(${at("factor")}="","${AREA_FROM.assumed}","${AREA_FROM.factor}"))`;
    return either(at, `IF(${large},"${AREA_FROM.large}",${kind})`, other);
  }),
  { ...basisColumn, formula: (at) => either(at, '"given"', basisColumn.formula(at)) },
  { ...freeAreaColumn, formula: (at) => either(at, at("effective"), freeAreaColumn.formula(at)) },
];

/** The looks of the cell that says what an area comes from. */
export const AREA_WORDS = [AREA_FROM.unsaid, AREA_FROM.large] as const;

/**
 * An airflow through a published area: the average of readings times that area, by its size and factor otherwise.
 *
 * @param readings - The readings of the row
 * @param other - The formula by size and factor
 */
export function throughPublished(at: RowCell, readings: string, other: string): string {
  const flow = `IF(COUNT(${readings})=0,"",AVERAGE(${readings})*${at("effective")}*${AIRFLOW_SCALE})`;
  return either(at, flow, other);
}
