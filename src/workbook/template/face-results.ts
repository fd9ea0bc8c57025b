import { ASSUMED_FREE_AREA } from "../../../shared/tables/assumed-free-area.js";
import { headingOf } from "../lists/index.js";
import { jobCell } from "./job-sheet.js";
import { AIRFLOW_SCALE, percentOfDesign, plusMinusOf, STANDARD_DENSITY, UNITS, unit } from "./plain-formulas.js";
import type { FormatName, StyleName } from "./style.js";
import type { ResultColumn, RowCell } from "./table-block.js";

/** A result column of an ordinary number or word. */
export function resultColumn(
  key: string,
  header: string,
  unitText: string,
  width: number,
  format: FormatName,
  formula: (at: RowCell) => string,
  style: StyleName = format === "general" ? "resultCenter" : "result",
): ResultColumn {
  return { kind: "result", key, header, unit: unitText, width, format, style, formula };
}

/** The whole area of a face, round where it has no height. */
export const areaColumn = resultColumn(
  "area",
  "Area",
  unit("ft²", "m²"),
  8,
  "fourDecimals",
  (at) =>
    `=IF(${at("width")}="","",IF(${at("height")}="",VANE.OPENING.ROUND(${at("width")},${UNITS}),VANE.OPENING.RECT(${at("width")},${at("height")},${UNITS})))`,
);

/** Whether the factor was given or assumed. */
export const basisColumn = resultColumn(
  "basis",
  "Factor source",
  "",
  9,
  "general",
  (at) => `=IF(${at("width")}="","",IF(${at("factor")}="","assumed","given"))`,
);

/** The part of the area that the louvers leave free. */
export const freeAreaColumn = resultColumn(
  "free",
  "Free area",
  unit("ft²", "m²"),
  8,
  "fourDecimals",
  (at) =>
    `=IF(${at("width")}="","",${at("area")}*IF(${at("factor")}="",${ASSUMED_FREE_AREA.metal.freeAreaRatio},${at("factor")}))`,
);

/** The airflow of a row by size, factor and readings; empty without a size or a reading. */
export function faceAirflow(at: RowCell, readings: string): string {
  const call = `VANE.AIRFLOW.FACE(${at("width")},${at("height")},${readings},${at("factor")},COUNT(${readings}),${UNITS})`;
  return `=IF(OR(${at("width")}="",COUNT(${readings})=0),"",${call})`;
}

/** Actual over shown velocity where a thermal meter shows standard velocity; empty without the density of the job's air. */
export const velocityFactorColumn = resultColumn(
  "velocityFactor",
  headingOf("velocityFactor"),
  "ratio",
  9,
  "threeDecimals",
  () => `=IF(COUNT(${jobCell("density")})=0,"",${STANDARD_DENSITY}/${jobCell("density")})`,
);

/**
 * An airflow by readings of a thermal meter, from the formula of another meter.
 *
 * @param noSize - True while the row says nothing of its opening
 */
export function timesVelocityFactor(at: RowCell, airflow: string, readings: string, noSize: string): string {
  const missing = `OR(COUNT(${at("velocityFactor")})=0,COUNT(${readings})=0,${noSize})`;
  return `=IF(${missing},"",${airflow.replace(/^=/, "")}*${at("velocityFactor")})`;
}

/** What a thermal meter has to show at the design airflow. */
export const shownDesignVelocityColumn = resultColumn(
  "designVelocity",
  "Design velocity",
  unit("fpm", "m/s"),
  9,
  "oneDecimal",
  (at) =>
    `=IF(COUNT(${at("design")},${at("free")},${at("velocityFactor")})=3,${at("design")}/${at("free")}/${AIRFLOW_SCALE}/${at("velocityFactor")},"")`,
);

/** The velocity that the design asks of the free area. */
export const designVelocityColumn = resultColumn(
  "designVelocity",
  "Design velocity",
  unit("fpm", "m/s"),
  9,
  "oneDecimal",
  (at) => `=IF(COUNT(${at("design")},${at("free")})=2,${at("design")}/${at("free")}/${AIRFLOW_SCALE},"")`,
);

/** How far off the airflow of a row may be, by its ± in percent. */
export const plusMinusColumn = resultColumn(
  "plusMinus",
  "± (95 %)",
  unit("cfm", "L/s"),
  7,
  "oneDecimal",
  (at) => `=${plusMinusOf(at("airflow"), at("doubt"))}`,
);

/** The airflow of a row in percent of its design. */
export const percentColumn = resultColumn(
  "percent",
  "Percent of design",
  "%",
  9,
  "oneDecimal",
  (at) => `=${percentOfDesign(at("airflow"), at("design"))}`,
);
