import { litersPerSecondFromCfm, type UnitSystemName } from "../../core/index.js";
import type { Finding } from "../../workbook/finding.js";
import { airflowUnit } from "../../workbook/index.js";
import type { GroupResult, JobResult, RollUp } from "../../workbook/rollup/index.js";
import { fixedFigure } from "../controls/shown-figure.js";

function counted(count: number, one: string): string {
  return `${count} ${one}${count === 1 ? "" : "s"}`;
}

function percent(value: number | null): string {
  return value === null ? "not known" : `${fixedFigure(value, 1)} %`;
}

/** Says what a roll-up comes to. */
export function totalWords({ jobs, total }: RollUp, units: UnitSystemName): string {
  const { compared, notMeasured, noDesign, faulty, open } = total;
  const rest = [
    [open, "open by the guarded rule"],
    [notMeasured, "not measured"],
    [noDesign, "without design"],
    [faulty, "with bad data"],
  ] as const;
  const left = rest.flatMap(([count, what]) => (count > 0 ? [`${count} ${what}`] : [])).join(", ");
  const besides = left === "" ? "" : ` Besides: ${left}.`;
  if (compared === 0) return `${counted(jobs.length, "job")}. No outlets to compare.${besides}`;
  const inside =
    total.withinPercent === null
      ? "no limits to judge them by"
      : `${percent(total.withinPercent)} of those with limits are within them`;
  const flow = (cfm: number) => fixedFigure(units === "si" ? litersPerSecondFromCfm(cfm) : cfm, 0);
  const sums = `${flow(total.measuredCfm)} of ${flow(total.designCfm)} ${airflowUnit(units)} design`;
  return `${counted(jobs.length, "job")}, ${counted(compared, "outlet")} compared: ${sums} (${percent(total.percent)}), ${inside}.${besides}`;
}

/** Names a job for a table: by number and name, else by its file. */
export function jobName({ jobNumber, jobName: name, file }: JobResult): string {
  const words = [jobNumber, name].filter((part) => part !== "").join(" ");
  return words === "" ? file : words;
}

/** Splits findings into workbooks that were left out, lists and outlets that are in no sum, and what else is worth a look. */
export function sortedFindings(findings: readonly Finding[]): {
  readonly skipped: readonly Finding[];
  readonly lost: readonly Finding[];
  readonly others: readonly Finding[];
} {
  return {
    skipped: findings.filter(({ leftOut }) => leftOut === "workbook"),
    lost: findings.filter(({ leftOut }) => leftOut === "list" || leftOut === "outlet"),
    others: findings.filter(({ leftOut }) => leftOut === "nothing"),
  };
}

/** Says the ± of a sum with what it assumes; null unless every outlet states its own. */
export function plusMinusPercents({ plusMinusCfm, measuredCfm }: GroupResult): string | null {
  if (plusMinusCfm === null || measuredCfm === 0) return null;
  const percent = fixedFigure((100 * plusMinusCfm) / Math.abs(measuredCfm), 1);
  return `± ${percent} % (95 %) on the total, worst case: every outlet errs alike.`;
}
