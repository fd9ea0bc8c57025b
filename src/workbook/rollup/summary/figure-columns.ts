import type { UnitSystemName } from "../../../core/index.js";
import { type Cfm, litersPerSecondFromCfm } from "../../../core/index.js";
import { airflowUnit } from "../../job/index.js";
import type { GroupResult } from "../group-result.js";
import type { ReportColumn } from "./report-table.js";

/** Headers that formulas elsewhere name. */
export const HEADER = {
  outlets: "Outlets",
  compared: "Compared",
  notMeasured: "Not measured",
  noDesign: "No design",
  faulty: "Faulty",
  low: "Low",
  within: "Within",
  high: "High",
  open: "Open",
  design: "Design",
  measured: "Measured",
  percent: "Percent of design",
  withinShare: "Share within limits",
  plusMinus: "± worst case",
  changed: "Before and after",
  before: "As found",
  after: "As left",
  change: "Change",
} as const;

/** Headers of the sheet Jobs besides its figures. A later run that compares itself finds its columns by these. */
export const JOB_HEADER = {
  number: "Job number",
  name: "Job name",
  date: "Date",
  customer: "Customer",
  site: "Site",
  workbook: "Workbook",
} as const;

/** Headers of the sheet Left out. */
export const LEFT_OUT_HEADER = {
  reason: "Reason",
  workbook: "Workbook",
  where: "Where",
  what: "Why, and what to do",
} as const;

/** Headers of the sheet Findings. */
export const FINDING_HEADER = {
  workbook: "Workbook",
  where: "Where",
  costs: "Costs",
  what: "What, and what to do",
} as const;

/** An airflow in the unit of the summary. */
export function shownAirflow(flowCfm: Cfm | null, units: UnitSystemName): number | null {
  return flowCfm === null || units === "ip" ? flowCfm : litersPerSecondFromCfm(flowCfm);
}

type Figure = ReportColumn<GroupResult>;

function count(header: string, of: (group: GroupResult) => number): Figure {
  return { header, unit: "", width: 9.5, format: "thousands", style: "result", of };
}

function percent(header: string, of: Figure["of"], format: Figure["format"] = "oneDecimal"): Figure {
  return { header, unit: "%", width: 9.5, format, style: "result", of };
}

/** The columns that every grouping has, from the number of its outlets to the one farthest from design. */
export function figureColumns(units: UnitSystemName): readonly Figure[] {
  const airflow = (header: string, of: (group: GroupResult) => Cfm | null): Figure => ({
    header,
    unit: airflowUnit(units),
    width: 11,
    format: "thousands",
    style: "result",
    of: (group) => shownAirflow(of(group), units),
  });
  const twice = (flowCfm: (group: GroupResult) => Cfm) => (group: GroupResult) =>
    group.changed.outlets === 0 ? null : flowCfm(group);
  return [
    count(HEADER.outlets, ({ outlets }) => outlets),
    count(HEADER.compared, ({ compared }) => compared),
    count(HEADER.notMeasured, ({ notMeasured }) => notMeasured),
    count(HEADER.noDesign, ({ noDesign }) => noDesign),
    count(HEADER.faulty, ({ faulty }) => faulty),
    count(HEADER.low, ({ low }) => low),
    count(HEADER.within, ({ within }) => within),
    count(HEADER.high, ({ high }) => high),
    count(HEADER.open, ({ open }) => open),
    airflow(HEADER.design, ({ designCfm }) => designCfm),
    airflow(HEADER.measured, ({ measuredCfm }) => measuredCfm),
    percent(HEADER.percent, (group, at) => ({
      formula: `=IF(${at(HEADER.design)}>0,${at(HEADER.measured)}/${at(HEADER.design)}*100,"")`,
      result: group.percent,
    })),
    percent(HEADER.withinShare, (group, at) => {
      const judged = `(${at(HEADER.low)}+${at(HEADER.within)}+${at(HEADER.high)}+${at(HEADER.open)})`;
      return { formula: `=IF(${judged}>0,${at(HEADER.within)}/${judged}*100,"")`, result: group.withinPercent };
    }),
    airflow(HEADER.plusMinus, ({ plusMinusCfm }) => plusMinusCfm),
    count(HEADER.changed, ({ changed }) => changed.outlets),
    airflow(
      HEADER.before,
      twice(({ changed }) => changed.beforeCfm),
    ),
    airflow(
      HEADER.after,
      twice(({ changed }) => changed.afterCfm),
    ),
    percent(
      HEADER.change,
      (group, at) => {
        const [before, after] = [at(HEADER.before), at(HEADER.after)];
        const formula = `=IF(COUNT(${before},${after})=2,IF(${before}>0,(${after}-${before})/${before}*100,""),"")`;
        return { formula, result: group.changePercent };
      },
      "signed",
    ),
    {
      header: "Farthest outlet",
      unit: "",
      width: 20,
      format: "general",
      style: "resultText",
      of: ({ farthest }) => (farthest === null ? null : [farthest.outlet, farthest.room].filter(Boolean).join(", ")),
    },
    percent("Its percent", ({ farthest }) => farthest?.percent ?? null),
  ];
}
