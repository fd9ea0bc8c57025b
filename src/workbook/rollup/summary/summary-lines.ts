import type { UnitSystemName } from "../../../core/index.js";
import { airflowUnit } from "../../job/index.js";
import type { RowContent } from "../../template/sheet-plan.js";
import type { FormatName } from "../../template/style.js";
import type { RollUp } from "../roll-up.js";
import { HEADER, shownAirflow } from "./figure-columns.js";
import type { TableReport } from "./table-report.js";

/** Row of the first line on the sheet Summary. */
export const FIRST_LINE_ROW = 5;

/** A figure over all jobs, with its label and its unit. */
export interface Line {
  readonly label: string;
  readonly content: RowContent;
  readonly unit: string;
  readonly format: FormatName;
}

/** The whole of a roll-up in one column, each figure a formula over the sheet of jobs. */
export function summaryLines(
  { jobs, total }: RollUp,
  table: TableReport,
  skipped: number,
  units: UnitSystemName,
): readonly Line[] {
  const range = (header: string) => `Jobs!${table.block.rangeOf(header)}`;
  const at = (label: string) => `$B$${FIRST_LINE_ROW + LABELS.indexOf(label)}`;
  const unit = airflowUnit(units);
  const count = (label: string, header: string, result: number): Line => ({
    label,
    content: { formula: `=SUM(${range(header)})`, result },
    unit: "",
    format: "thousands",
  });
  const flow = (label: string, formula: string, resultCfm: number | null): Line => ({
    label,
    content: { formula, result: shownAirflow(resultCfm, units) },
    unit,
    format: "thousands",
  });
  const allStated = (header: string, combined: string) =>
    `=IF(AND(COUNT(${range(header)})>0,COUNT(${range(header)})=COUNTIF(${range(HEADER.compared)},">0")),${combined},"")`;
  const judged = `(${at("Outlets low")}+${at("Outlets within")}+${at("Outlets high")}+${at("Outlets open")})`;
  const percent = (label: string, formula: string, result: number | null, format: FormatName = "oneDecimal"): Line => ({
    label,
    content: { formula, result },
    unit: "%",
    format,
  });
  return [
    {
      label: "Jobs",
      content: { formula: `=COUNTA(${range("Workbook")})`, result: jobs.length },
      unit: "",
      format: "thousands",
    },
    { label: "Workbooks left out", content: skipped, unit: "", format: "thousands" },
    count("Outlets listed", HEADER.outlets, total.outlets),
    count("Outlets compared", HEADER.compared, total.compared),
    count("Outlets not measured", HEADER.notMeasured, total.notMeasured),
    count("Outlets without design", HEADER.noDesign, total.noDesign),
    count("Outlets with bad data", HEADER.faulty, total.faulty),
    count("Outlets low", HEADER.low, total.low),
    count("Outlets within", HEADER.within, total.within),
    count("Outlets high", HEADER.high, total.high),
    count("Outlets open", HEADER.open, total.open),
    percent("Share within limits", `=IF(${judged}>0,${at("Outlets within")}/${judged}*100,"")`, total.withinPercent),
    flow("Design of those compared", `=SUM(${range(HEADER.design)})`, total.designCfm),
    flow("Measured", `=SUM(${range(HEADER.measured)})`, total.measuredCfm),
    percent(
      "Percent of design",
      `=IF(${at("Design of those compared")}>0,${at("Measured")}/${at("Design of those compared")}*100,"")`,
      total.percent,
    ),
    flow(HEADER.plusMinus, allStated(HEADER.plusMinus, `SUM(${range(HEADER.plusMinus)})`), total.plusMinusCfm),
    count("Outlets before and after", HEADER.changed, total.changed.outlets),
    flow("As found, of those", `=SUM(${range(HEADER.before)})`, total.changed.beforeCfm),
    flow("As left, of those", `=SUM(${range(HEADER.after)})`, total.changed.afterCfm),
    percent(
      "Change",
      `=IF(${at("As found, of those")}>0,(${at("As left, of those")}-${at("As found, of those")})/${at("As found, of those")}*100,"")`,
      total.changePercent,
      "signed",
    ),
  ];
}

/** The labels in their order, by which the formulas find each other. */
const LABELS: readonly string[] = [
  "Jobs",
  "Workbooks left out",
  "Outlets listed",
  "Outlets compared",
  "Outlets not measured",
  "Outlets without design",
  "Outlets with bad data",
  "Outlets low",
  "Outlets within",
  "Outlets high",
  "Outlets open",
  "Share within limits",
  "Design of those compared",
  "Measured",
  "Percent of design",
  HEADER.plusMinus,
  "Outlets before and after",
  "As found, of those",
  "As left, of those",
  "Change",
];
